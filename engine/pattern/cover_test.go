package pattern_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fettle/engine/pattern"
	"fettle/fault"
)

// TestCut_Cover cuts the tan pieces of the demo van from their sewn rectangles,
// 12 mm all round: 6.41 m² in all, 2.75 seen first, 3.09 second, 0.57 hidden.
func TestCut_Cover(t *testing.T) {
	sum := map[string]float64{}
	for _, c := range []struct {
		w, h  float64
		n     float64
		grade string
	}{
		{470, 480, 1, "A"}, {480, 150, 2, "A"}, {1650, 130, 1, "B"}, {430, 560, 1, "A"}, {560, 170, 2, "A"}, {480, 600, 1, "B"},
		{470, 480, 1, "A"}, {480, 150, 2, "A"}, {1650, 130, 1, "B"}, {430, 560, 1, "A"}, {560, 170, 2, "A"}, {480, 600, 1, "B"},
		{1800, 35, 9, "C"}, {760, 340, 1, "B"}, {760, 340, 1, "B"}, {520, 240, 2, "B"}, {330, 140, 2, "A"}, {260, 60, 4, "B"},
		{1240, 230, 1, "A"}, {1260, 120, 1, "A"}, {1290, 98, 1, "A"}, {300, 260, 1, "A"}, {240, 200, 1, "B"}, {400, 160, 4, "B"},
		{240, 620, 2, "B"}, {620, 540, 1, "B"}, {540, 300, 2, "B"}, {980, 420, 1, "A"},
	} {
		cut, err := piece(rect(c.w-24, c.h-24), 12, 12, 12, 12).Cut(0)
		if err != nil {
			t.Fatal(err)
		}
		sum[c.grade] += c.n * cut.Area()
	}
	for grade, want := range map[string]float64{"A": 2.75, "B": 3.09, "C": 0.57} {
		if !near(sum[grade], want, 0.005) {
			t.Errorf("grade %s: %.3f m², want %.2f", grade, sum[grade], want)
		}
	}
	if all := sum["A"] + sum["B"] + sum["C"]; !near(all, 6.41, 0.005) {
		t.Errorf("%.3f m² in all, want 6.41", all)
	}
}

// sums has every sum with numbers drawn wildly, right and wrong.
func sums(g func() pattern.Given) []func() (pattern.Amount, error) {
	return []func() (pattern.Amount, error){
		amount(pattern.Stretched(g(), g())), amount(pattern.Girth(g(), g())), amount(pattern.PleatedWidth(g(), g(), g(), g())),
		amount(pattern.PleatLoss(g(), g(), g())), amount(pattern.Strap(g(), g(), g())), amount(pattern.Bias(g())), amount(pattern.BiasYield(g(), g(), g())),
		amount(pattern.PipingCord(g(), g(), g())), amount(pattern.ClipCount(g(), g(), true)), amount(pattern.HogRings(g(), g())),
		amount(pattern.ListingWire([]pattern.Given{g(), g()}, g())), amount(pattern.Foam(g(), g())), amount(pattern.Deadener(g(), g(), g())),
		amount(pattern.Glue{Area: g(), Faces: g(), Yield: g(), Waste: g()}.Adhesive()), amount(pattern.GluedBoard(g(), g(), g(), g())),
		func() (pattern.Amount, error) {
			r := pattern.Row{Length: g(), Rows: g(), Pitch: g(), Stack: g(), Waste: g(), Bobbin: g(), Seen: true}
			t, err := r.Thread()
			if err == nil && !near(t.Needle+t.Bobbin, t.Total.Value, 1e-9*t.Total.Value) {
				return t.Total, fault.New(fault.Internal, "%g + %g is not %g", t.Needle, t.Bobbin, t.Total.Value)
			}
			return t.Total, err
		},
		func() (pattern.Amount, error) {
			s, err := pattern.Piping{Length: g(), Corners: g(), Cord: g(), Thickness: g(), Allowance: g(), Piece: g(), Bias: true}.Strips()
			if err == nil && s.Count.Value*s.Each.Value < s.Length.Value-1e-6 {
				return s.Count, fault.New(fault.Internal, "%g strips of %g for %g mm", s.Count.Value, s.Each.Value, s.Length.Value)
			}
			return s.Area, err
		},
		func() (pattern.Amount, error) {
			w, err := pattern.Wheel{Rim: g(), Grip: g(), Stretch: g(), Pitch: g(), Cross: g(), Spokes: []float64{g().Value, g().Value}}.Strip()
			return w.Length, err
		},
		func() (pattern.Amount, error) {
			p, err := pattern.Gaiter{Foot: g(), Head: g(), Height: g(), Travel: g(), Panels: int(g().Value) % 9}.Pattern()
			if err == nil {
				_, err = p.Piece.Cut(0)
			}
			return p.Slant, err
		},
		func() (pattern.Amount, error) {
			h, err := pattern.Headliner{Spans: []pattern.Given{g(), g()}, Widths: []pattern.Given{g(), g(), g()}, Bow: g(), Ease: g(), Allowance: g(), Sides: g()}.Panels()
			return h.Cloth, err
		},
		func() (pattern.Amount, error) { a, p, err := pattern.Boxing(g(), g(), g()); return checked(a, p, err) },
		func() (pattern.Amount, error) {
			a, body, end, err := pattern.Bolster(g(), g(), g(), g())
			if a, err = checked(a, body, err); err == nil {
				return checked(a, end, nil)
			}
			return a, err
		},
	}
}

func checked(a pattern.Amount, p pattern.Piece, err error) (pattern.Amount, error) {
	if err == nil {
		_, err = p.Cut(0)
	}
	return a, err
}

// FuzzSums: whatever goes in, there comes a number with its working, or a fault
// that says which input is wrong.
func FuzzSums(f *testing.F) {
	for seed := range uint64(200) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, seed uint64) {
		rng := rand.New(rand.NewPCG(seed, 2))
		scale := math.Pow(10, 6*rng.Float64()-2)
		g := func() pattern.Given {
			switch rng.IntN(12) {
			case 0:
				return pattern.Given{}
			case 1:
				return v(0)
			case 2:
				return v([]float64{math.NaN(), math.Inf(1), -1, 1e12}[rng.IntN(4)])
			}
			return v(scale * (0.1 + rng.Float64()))
		}
		for i, one := range sums(g) {
			a, err := one()
			switch {
			case err != nil && (fault.KindOf(err) == fault.Internal || err.Error() == ""):
				t.Errorf("seed %d, sum %d: %v", seed, i, err)
			case err == nil && (math.IsNaN(a.Value) || math.IsInf(a.Value, 0) || a.Working.Formula == "" || strings.Contains(a.Working.With, "NaN")):
				t.Errorf("seed %d, sum %d: %+v", seed, i, a)
			}
		}
	})
}
