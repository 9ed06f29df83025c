package flatten

import (
	"context"
	"math"
	"testing"

	"fettle/geom/mesh"
)

// Whatever the figures and the shape, no face is turned over, all figures are
// numbers, and the share outside is a share.
func FuzzMaterial(f *testing.F) {
	f.Add(0.05, 0.01, 0.3, 0.0, 0.4, 0.2)
	f.Add(0.0, 0.0, 0.05, 0.4, 1.2, -0.6)
	f.Add(0.5, 0.3, 5.0, 1.1, -2.0, 3.0)
	f.Fuzz(func(t *testing.T, tension, squeeze, shear, lock, bulge, twist float64) {
		m := Material{Name: "any", Tension: [2]float64{tension, tension / 2}, Squeeze: [2]float64{squeeze, squeeze},
			Stiffness: [2]float64{1, 0.5}, Poisson: 0.2, Shear: shear, Slack: 0.05, Lock: lock}
		if m.Validate() != nil || !(math.Abs(bulge) < 5 && math.Abs(twist) < 5) {
			t.Skip()
		}
		surface := patch(6, 6, func(u, v float64) mesh.Vec {
			x, y := u-0.5, v-0.5
			return mesh.Vec{X: x, Y: y, Z: bulge*(x*x+y*y) + twist*x*y}
		})
		r, err := Solve(context.Background(), Problem{Surface: surface, Material: &m}, Options{Steps: 15})
		if err != nil {
			t.Fatal(err)
		}
		w := r.Material
		if w.Flips > 0 || !(w.Outside >= 0 && w.Outside <= 1+1e-9) || math.IsNaN(w.Stretch[0]+w.Stretch[1]+w.Stretch[2]) || math.IsInf(w.Stretch[2], 0) {
			t.Errorf("%+v of %+v", w, m)
		}
	})
}

// Edges that have been matched go together, whatever they were.
func FuzzMatch(f *testing.F) {
	f.Add(100.0, 1.0, 110.0, 0.5, 30.0, 0.1, 0.5)
	f.Add(1.0, 6.0, 3.0, 0.01, 0.0, 0.0, 1.0)
	f.Fuzz(func(t *testing.T, radius, angle, other, turn, every, within, share float64) {
		for _, x := range []float64{radius, angle, other, turn} {
			if !(x > 1e-3 && x < 1e3) {
				t.Skip()
			}
		}
		if every != 0 && !(every > 0.01*max(float64(radius*angle), float64(other*turn))) {
			t.Skip()
		}
		m, err := Match(arc(radius, angle, 17), arc(other, turn, 23), every, within, share)
		if err != nil {
			t.Skip()
		}
		for _, edge := range m.Edges {
			for _, p := range edge {
				if s := p.X + p.Y; math.IsNaN(s) || math.IsInf(s, 0) {
					t.Fatalf("a vertex lies nowhere: %v", p)
				}
			}
		}
		hair := 1e-9 * (m.After.Length[0] + m.After.Length[1])
		for i, at := range m.After.Intervals {
			if d := math.Abs((at.To[1] - at.From[1]) - (at.To[0] - at.From[0])); d > within+hair {
				t.Errorf("interval %d still differs by %g, allowed %g", i, d, within)
			}
		}
	})
}
