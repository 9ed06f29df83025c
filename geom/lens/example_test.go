package lens_test

import (
	"fmt"

	"fettle/geom"
	"fettle/geom/lens"
)

// A rectangle of 2,400 by 2,000 mm is taped on the floor, and a sheet lies in it.
func ExampleFit() {
	corners := [4]geom.Point{{X: 400, Y: 1250}, {X: 1600, Y: 1250}, {X: 1560, Y: 260}, {X: 440, Y: 260}}
	v, err := lens.Fit(lens.Scene{Width: 2000, Height: 1500, Patches: [][]lens.Mark{lens.Rectangle(corners, 2400, 2000)}, Tape: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	t, err := v.Trace([]geom.Point{{X: 600, Y: 1100}, {X: 1400, Y: 1100}, {X: 1380, Y: 500}, {X: 620, Y: 500}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f ± %.2f m², the line within %.0f mm\n", t.Area/1e6, t.Off/1e6, t.Error)
	// Output: 1.94 ± 0.04 m², the line within 12 mm
}
