package trim_test

import (
	"slices"
	"testing"

	"fettle/geom"
	"fettle/geom/overlay"
	"fettle/stage/trim"
)

// TestRemnants_AreFree: no piece of the kept plan and no mark lies on what is
// said to be left of a hide.
func TestRemnants_AreFree(t *testing.T) {
	b := morning(t, october)
	set, err := trim.SetOf(&b, trim.Asked{Material: tan})
	if err != nil {
		t.Fatal(err)
	}
	list := set.Remnants(b.LayoutOf(tan).Placed)
	if len(list) == 0 {
		t.Fatal("nothing is left of any hide")
	}
	cuts := trim.Cuts(&b, tan)
	for _, r := range list {
		h := b.Hide(r.Hide)
		var on []geom.Polygon
		for _, at := range b.LayoutOf(tan).Placed {
			if at.Hide == r.Hide {
				on = append(on, trim.CutOf(cuts, at.Piece, at.Copy).Lies(at))
			}
		}
		for _, m := range h.Marks {
			on = append(on, m.Shape.Polygon())
		}
		rectangle := []geom.Polygon{{Outer: r.Corners[:]}}
		over, err := overlay.Intersect(rectangle, on)
		out, other := overlay.Subtract(rectangle, []geom.Polygon{h.Outline.Polygon()})
		if len(over)+len(out) > 0 || err != nil || other != nil {
			t.Errorf("hide %s, %s: %v %v, %v %v", r.Hide, r.Words(), over, out, err, other)
		}
	}
	one := slices.Clone(b.LayoutOf(tan).Placed[:1])
	if got := set.Remnants(one); len(got) != 1 {
		t.Errorf("of one piece alone: %v", got)
	}
	one[0].X += 5000
	if got := set.Remnants(one); got != nil {
		t.Errorf("of a piece that lies off the hide: %v", got)
	}
}
