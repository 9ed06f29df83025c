package flatten_test

import (
	"context"
	"fmt"
	"math"

	"fettle/engine/flatten"
	"fettle/geom/mesh"
)

// A quarter of a pipe of radius 100 and length 200, in strips along it, laid
// flat: a rectangle as wide as its chords.
func ExampleSolve() {
	const strips = 16
	var m mesh.Mesh
	for i := range int32(strips + 1) {
		s, c := math.Sincos(math.Pi / 2 * float64(i) / strips)
		m.Points = append(m.Points, mesh.Vec{X: 100 * c, Y: 100 * s}, mesh.Vec{X: 100 * c, Y: 100 * s, Z: 200})
		if a := 2 * i; i > 0 {
			m.Faces = append(m.Faces, mesh.Face{a - 2, a, a + 1}, mesh.Face{a - 2, a + 1, a - 1})
		}
	}
	p := flatten.Problem{Surface: m}
	r, err := flatten.Solve(context.Background(), p, flatten.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	strain, err := flatten.Check(p, r)
	var wide, high float64
	for _, at := range r.Flat.Points {
		wide, high = max(wide, at.X), max(high, at.Y)
	}
	fmt.Printf("%.2f by %.2f, %d turned over, %d overlaps, %.4f of 4, %v\n", wide, high, strain.Flips, strain.Overlaps, strain.Dirichlet, err)
	// Output: 200.00 by 157.02, 0 turned over, 0 overlaps, 4.0000 of 4, <nil>
}
