package pattern_test

import (
	"math"
	"testing"

	"fettle/engine/pattern"
	"fettle/fault"
	"fettle/geom"
)

// TestPiece_Pulled: 20 in along the arrow become 19.4 in at 3 % (section 3.1);
// across it nothing is pulled; seams of pieces pulled alike still fit.
func TestPiece_Pulled(t *testing.T) {
	for _, c := range []struct {
		angle, along, across, w, h float64
	}{
		{0, 0.03, 0, 19.4 * 25.4, 300}, {90, 0.03, 0, 508, 291}, {180, 0.03, 0.05, 19.4 * 25.4, 285}, {37, 0.04, 0.04, 508 * 0.96, 288},
	} {
		p := piece(rect(508, 300), 12, 12, 12, 12)
		p.Arrow = pattern.Arrow{Kind: "stretch", Angle: c.angle}
		q, err := p.Pulled(c.along, c.across)
		box := geom.Polygon{Outer: q.Line}.Bounds()
		if err != nil || !near(box.Width(), c.w, 1e-9) || !near(box.Height(), c.h, 1e-9) || geom.Ring(q.Line).Centroid().Distance(geom.Point{X: 254, Y: 150}) > 1e-9 {
			t.Errorf("%+v: %g × %g mm, %v", c, box.Width(), box.Height(), err)
		}
	}
	s := cushion()
	for i := range s.Pieces {
		var err error
		if s.Pieces[i], err = s.Pieces[i].Pulled(0.04, 0.04); err != nil {
			t.Fatal(err)
		}
	}
	for _, m := range s.Seams {
		if f, err := s.Fit(m); err != nil || !f.Fits || !near(f.Ease, 0, 1e-12) {
			t.Errorf("%s: %+v, %v", m.ID, f, err)
		}
	}
	p := dressed()
	q, err := p.Pulled(0.05, 0.05)
	if err != nil || !near(q.Pleats.At[0]-q.Pleats.At[1], 0.95*40, 1e-9) || !near(q.Motifs[1].At[0]-q.Motifs[0].At[0], 0.95*200, 1e-9) {
		t.Errorf("%+v %+v, %v", q.Pleats, q.Motifs, err)
	}
	if _, err := q.Flat(); err != nil {
		t.Error(err)
	}
	for _, bad := range [][2]float64{{0.05, 0}, {-1, -1}, {math.NaN(), 0}, {4, 4}} {
		if _, err := p.Pulled(bad[0], bad[1]); fault.KindOf(err) != fault.Invalid {
			t.Errorf("pulled by %v: %v", bad, err)
		}
	}
}
