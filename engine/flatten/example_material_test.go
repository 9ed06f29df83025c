package flatten_test

import (
	"context"
	"fmt"
	"math"

	"fettle/engine/flatten"
	"fettle/geom/mesh"
)

// A bowl that leather does not cover in one piece, and what darts do for it.
func ExamplePropose() {
	var bowl mesh.Mesh // of a sphere of 200 mm, 16 rings of 48, half-angle 60°
	bowl.Points = append(bowl.Points, mesh.Vec{Z: 200})
	for ring := 1; ring <= 16; ring++ {
		s, c := math.Sincos(math.Pi / 3 * float64(ring) / 16)
		for i := range 48 {
			y, x := math.Sincos(2 * math.Pi * float64(i) / 48)
			bowl.Points = append(bowl.Points, mesh.Vec{X: 200 * s * x, Y: 200 * s * y, Z: 200 * c})
		}
	}
	at := func(ring, i int) int32 { return int32(1 + 48*(ring-1) + (i+48)%48) }
	for i := range 48 {
		bowl.Faces = append(bowl.Faces, mesh.Face{0, at(1, i), at(1, i+1)})
		for ring := 1; ring < 16; ring++ {
			a, b, c, d := at(ring, i), at(ring+1, i), at(ring+1, i+1), at(ring, i+1)
			bowl.Faces = append(bowl.Faces, mesh.Face{a, b, c}, mesh.Face{a, c, d})
		}
	}
	leather := flatten.Leather()
	problem := flatten.Problem{Surface: bowl, Material: &leather}
	estimate, err := flatten.EstimateOf(problem)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("needs %.0f %%, allowed %.0f %%\n", 100*estimate.Needed, 100*estimate.Allowed)
	cuts, err := flatten.Propose(context.Background(), problem, flatten.Ways{}, flatten.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("more than a tenth outside:", cuts.Outside > 0.1)
	fmt.Println("a hundredth or less with darts:", cuts.Result.Material.Outside <= 0.01)
	// Output:
	// needs 19 %, allowed 11 %
	// more than a tenth outside: true
	// a hundredth or less with darts: true
}
