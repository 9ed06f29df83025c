package demo

import (
	"bytes"
	_ "embed"
	"math"

	"fettle/geom/mesh"
)

//go:embed wing.mesh
var wing []byte

// Wing returns the repair section of a wing, packed as the vault keeps it: what
// WingSurface gives, rounded.
func Wing() []byte { return bytes.Clone(wing) }

// Scans returns all surfaces of the demo build, packed as the vault keeps them.
func Scans() [][]byte { return [][]byte{Cushion(), Wing()} }

// The repair section: its width along the sill, and from the lower edge up the
// flange, the bend and the skin, in mm; how far the skin is crowned, and how
// far out and wide the blister over the bumper iron is.
const (
	wingWide   = 300.0
	wingFlange = 16.0
	wingBend   = 8.0 // radius
	wingTurn   = 70 * math.Pi / 180
	wingSkin   = 224.0
	wingRound  = 480.0 // radius of the skin, upwards
	wingCrown  = 30.0
	wingOut    = 22.0
	wingBroad  = 36.0
)

// WingSurface is the lower rear corner of the left front wing: a flange at the
// sill that is folded straight, above it a skin that is round both ways with a blister, in mm
// over a grid of 1,221 vertices. The sill lies along x, z is up, and y towards
// who stands outside.
func WingSurface() mesh.Mesh {
	rows := wingRows()
	return grid(36, len(rows)-1, func(i, j int) mesh.Vec {
		u := float64(i) / 36
		y, z, way := wingProfile(rows[j])
		s := max(0, (rows[j]-wingFlange-wingBend*wingTurn)/wingSkin) // no crown at the fold
		crown := wingCrown * (1 - (2*u-1)*(2*u-1)) * s * s * (3 - 2*s)
		dx, dv := wingWide*(u-0.55), wingSkin*(s-0.56)
		crown += wingOut * math.Exp(-(dx*dx+dv*dv)/(wingBroad*wingBroad)) * min(1, 4*s)
		sin, cos := math.Sincos(way)
		return mesh.Vec{X: wingWide * (0.5 - u), Y: y + crown*sin, Z: z - crown*cos}
	})
}

// wingRows are the rows of the grid, along the sheet from its lower edge.
func wingRows() []float64 {
	list := []float64{0, wingFlange / 2}
	for k := range 7 {
		list = append(list, wingFlange+wingBend*wingTurn*float64(k)/6)
	}
	for k := range 24 {
		list = append(list, wingFlange+wingBend*wingTurn+wingSkin*float64(k+1)/24)
	}
	return list
}

// wingProfile is where the sheet is so far along from its lower edge, and which
// way it runs there: radians, 0 outwards, a quarter turn upwards. Outside is on
// its right.
func wingProfile(v float64) (y, z, way float64) {
	way = 10 * math.Pi / 180
	y, z = min(v, wingFlange)*math.Cos(way), min(v, wingFlange)*math.Sin(way)
	for _, arc := range []struct{ from, long, radius float64 }{{wingFlange, wingBend * wingTurn, wingBend}, {wingFlange + wingBend*wingTurn, wingSkin, wingRound}} {
		turn := min(max(v-arc.from, 0), arc.long) / arc.radius
		y += arc.radius * (math.Sin(way+turn) - math.Sin(way))
		z += arc.radius * (math.Cos(way) - math.Cos(way+turn))
		way += turn
	}
	return y, z, way
}
