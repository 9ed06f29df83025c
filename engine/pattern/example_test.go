package pattern_test

import (
	"fmt"

	"fettle/engine/pattern"
	"fettle/figure"
)

// A cushion's face of two pieces: the cut size, the notches of the seam between
// them, what is sewn first, and its thread.
func Example() {
	rect := func(id string, w, h float64) pattern.Piece {
		p := pattern.Piece{ID: id, Name: id + " of the face", Line: pattern.Line{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}}
		for i, name := range []string{"foot", "right", "head", "left"} {
			p.Edges = append(p.Edges, pattern.Edge{Name: name, From: i, Kind: pattern.Plain})
		}
		return p
	}
	set := pattern.Set{Pieces: []pattern.Piece{rect("front", 446, 300), rect("rear", 446, 156)}, Seams: []pattern.Seam{{
		ID: "across", Name: "across the face", Kind: pattern.French, Sewing: pattern.Sewing{Pitch: 4, Thread: "138", Stack: 4},
		A: []pattern.Ref{{Piece: "front", Edge: "head"}}, B: []pattern.Ref{{Piece: "rear", Edge: "foot"}}}}}
	drawn, fits, err := set.Draw()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range drawn {
		fmt.Printf("%s: %.4f m² cut\n", d.Piece, d.Area)
	}
	for _, n := range fits[0].Notches {
		fmt.Printf("notch at %.0f mm, double %v\n", n.A*fits[0].A, n.Double)
	}
	order, err := set.Order()
	if err != nil {
		fmt.Println(err)
		return
	}
	rows, err := set.StitchSheet(order, pattern.Given{Value: 60, Source: figure.Measured})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range rows {
		fmt.Printf("%s: %d stitches, needle %s, %s\n", r.Act, r.Stitches, r.Needle, r.Takes.Total.Working.With)
	}
	// Output:
	// front: 0.1523 m² cut
	// rear: 0.0846 m² cut
	// notch at 149 mm, double false
	// notch at 297 mm, double true
	// sew: 112 stitches, needle 125–150, 0.446 m × 1 × 4 × 1.15 = 2.1 m
	// sew on top: 180 stitches, needle 125–150, 0.446 m × 2 × 3.6 × 1.15 = 3.7 m
}

// The cover of a piping cord, and the strips that it is cut from.
func ExamplePiping_Strips() {
	given := func(v float64) pattern.Given { return pattern.Given{Value: v, Source: figure.Measured} }
	strips, err := pattern.Piping{Length: given(6000), Corners: given(4), Cord: given(4), Thickness: given(1.1),
		Allowance: given(12.7), Piece: given(1370), Bias: true}.Strips()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(strips.Width.Working.With)
	fmt.Println(strips.Length.Working.With)
	fmt.Println(strips.Count.Working.With)
	// Output:
	// π × (4 + 1.1) + 2 × 12.7 = 41 mm
	// 6000 + 25 × 4 = 6100 mm
	// (6100 − 2 × 12.7) ÷ (1937 − 2 × 12.7), rounded up = 4
}
