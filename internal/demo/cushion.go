package demo

import (
	"bytes"
	_ "embed"
	"math"

	"fettle/geom/mesh"
)

//go:embed cushion.mesh
var cushion []byte

// Cushion returns the seat surface of the demo build, packed as the vault keeps
// it: what CushionSurface gives, rounded.
func Cushion() []byte { return bytes.Clone(cushion) }

// The grid of the cushion: cells along each side, and its size in mm.
const (
	cushionCells = 38
	cushionWide  = 446.0
	cushionDeep  = 456.0
)

// CushionSurface is the driver's cushion: a crowned seat between two bolsters,
// with a waterfall at the front edge, as a height field in mm over a square
// grid of 1,521 vertices. The front is at y = 0.
func CushionSurface() mesh.Mesh {
	const n = cushionCells
	return grid(n, n, func(i, j int) mesh.Vec {
		x, y := cushionWide*(float64(i)/n-0.5), cushionDeep*float64(j)/n
		return mesh.Vec{X: x, Y: y, Z: cushionHeight(x, y)}
	})
}

// grid is a surface of so many cells across and along, two faces each.
func grid(across, along int, at func(i, j int) mesh.Vec) mesh.Mesh {
	var m mesh.Mesh
	for j := range along + 1 {
		for i := range across + 1 {
			m.Points = append(m.Points, at(i, j))
		}
	}
	for j := range int32(along) {
		for i := range int32(across) {
			a := j*int32(across+1) + i
			b := a + int32(across+1)
			m.Faces = append(m.Faces, mesh.Face{a, a + 1, b + 1}, mesh.Face{a, b + 1, b})
		}
	}
	return m
}

// cushionHeight is the foam above its base: 90 mm, 16 mm of crown, bolsters of
// 34 mm whose ridge runs 45 mm in from the sides and ends before the front and
// the rear, and 30 mm of fall at the front.
func cushionHeight(x, y float64) float64 {
	u, v := 2*x/cushionWide, 2*y/cushionDeep-1
	crown := 16 * (1 - u*u) * (1 - v*v)
	off := (math.Abs(x) - (cushionWide/2 - 45)) / 42
	bolster := 34 * math.Exp(-off*off) * (1 - v*v*v*v)
	fall := 30 * math.Exp(-y/38)
	return 90 + crown + bolster - fall
}
