package pattern_test

import (
	"math"
	"strings"
	"testing"

	"fettle/engine/pattern"
	"fettle/fault"
)

// input is one number of a formula: what it may be, a value that goes well with
// the others, and whether the trade has a default.
type input struct {
	low, good, high float64
	habit, whole    bool
}

func need(low, good, high float64) input { return input{low: low, good: good, high: high} }
func habit(low, good, high float64) input {
	return input{low: low, good: good, high: high, habit: true}
}
func count(low, good, high float64, has bool) input {
	return input{low, good, high, has, true}
}

// formula is a sum or a recipe by its numbers.
type formula struct {
	name   string
	inputs []input
	of     func(g []pattern.Given) (float64, error)
}

func value(a pattern.Amount, err error) (float64, error) { return a.Value, err }

var formulas = []formula{
	{"stretch", []input{need(0, 500, 1e6), need(0, 0.03, 0.5)}, func(g []pattern.Given) (float64, error) { return value(pattern.Stretched(g[0], g[1])) }},
	{"girth", []input{need(10, 500, 1e5), habit(0, 0.04, 0.15)}, func(g []pattern.Given) (float64, error) { return value(pattern.Girth(g[0], g[1])) }},
	{"pleated width", []input{need(1, 600, 1e5), count(0, 8, 1000, false), need(0, 3, 100), habit(0, 12, 100)}, func(g []pattern.Given) (float64, error) {
		return value(pattern.PleatedWidth(g[0], g[1], g[2], g[3]))
	}},
	{"pleat loss", []input{need(100, 200, 1e4), need(1, 100, 200), count(1, 8, 1000, false)}, func(g []pattern.Given) (float64, error) {
		return value(pattern.PleatLoss(g[0], g[1], g[2]))
	}},
	{"boxing", []input{need(20, 900, 1e5), need(5, 100, 2000), habit(1, 12, 100)}, func(g []pattern.Given) (float64, error) {
		a, p, err := pattern.Boxing(g[0], g[1], g[2])
		return sound(a.Value, err, p)
	}},
	{"bolster", []input{need(20, 900, 1e4), need(10, 100, 2000), habit(0, 0.04, 0.15), habit(1, 12, 100)}, func(g []pattern.Given) (float64, error) {
		a, body, end, err := pattern.Bolster(g[0], g[1], g[2], g[3])
		return sound(a.Value, err, body, end)
	}},
	{"strap", []input{need(3, 30, 500), need(0.1, 1.2, 20), habit(0, 5, 50)}, func(g []pattern.Given) (float64, error) { return value(pattern.Strap(g[0], g[1], g[2])) }},
	{"bias", []input{need(10, 1400, 1e4)}, func(g []pattern.Given) (float64, error) { return value(pattern.Bias(g[0])) }},
	{"bias yield", []input{need(10, 1400, 1e4), need(10, 900, 1e5), need(2, 40, 500)}, func(g []pattern.Given) (float64, error) {
		return value(pattern.BiasYield(g[0], g[1], g[2]))
	}},
	{"piping", []input{need(0, 900, 1e7), count(0, 4, 1000, true), habit(0.5, 4, 60), need(0.1, 1, 20), habit(1, 12, 100), need(50, 1400, 1e5)}, func(g []pattern.Given) (float64, error) {
		s, err := pattern.Piping{Length: g[0], Corners: g[1], Cord: g[2], Thickness: g[3], Allowance: g[4], Piece: g[5]}.Strips()
		return s.Area.Value, err
	}},
	{"cord", []input{need(0, 900, 1e7), count(0, 4, 1000, true)}, func(g []pattern.Given) (float64, error) {
		return value(pattern.PipingCord(g[0], g[1], pattern.Given{}))
	}},
	{"thread", []input{need(0, 900, 1e7), count(1, 2, 20, true), habit(0.5, 4, 30), need(0.1, 4, 60), habit(0, 0.1, 1)}, func(g []pattern.Given) (float64, error) {
		r, err := pattern.Row{Length: g[0], Rows: g[1], Pitch: g[2], Stack: g[3], Waste: g[4]}.Thread()
		return r.Needle + r.Bobbin, err
	}},
	{"bobbins", []input{need(0.5, 80, 2000)}, func(g []pattern.Given) (float64, error) {
		r, err := pattern.Row{Length: v(900), Stack: v(4), Bobbin: g[0]}.Thread()
		if err != nil || r.Bobbins == nil {
			return 0, err
		}
		return r.Bobbins.Value, err
	}},
	{"clips", []input{need(0, 900, 1e6), habit(10, 120, 1000)}, func(g []pattern.Given) (float64, error) { return value(pattern.ClipCount(g[0], g[1], true)) }},
	{"hog rings", []input{need(0, 900, 1e6), habit(10, 50, 200)}, func(g []pattern.Given) (float64, error) { return value(pattern.HogRings(g[0], g[1])) }},
	{"listing wire", []input{need(1, 400, 1e5), need(1, 380, 1e5), habit(0, 25, 200)}, func(g []pattern.Given) (float64, error) {
		return value(pattern.ListingWire(g[:2], g[2]))
	}},
	{"adhesive", []input{need(0, 2, 1e4), count(1, 2, 2, true), habit(0.5, 10, 50), habit(0, 0.1, 2)}, func(g []pattern.Given) (float64, error) {
		return value(pattern.Glue{Area: g[0], Faces: g[1], Yield: g[2], Waste: g[3]}.Adhesive())
	}},
	{"foam", []input{need(0, 22, 1e5), need(5, 40, 400)}, func(g []pattern.Given) (float64, error) { return value(pattern.Foam(g[0], g[1])) }},
	{"deadener", []input{need(0, 6, 1e4), need(0.05, 3, 30), habit(0.01, 0.8, 1)}, func(g []pattern.Given) (float64, error) {
		return value(pattern.Deadener(g[0], g[1], g[2]))
	}},
	{"board", []input{need(10, 400, 1e4), need(10, 160, 1e4), habit(0, 20, 300), habit(0, 0.1, 0.5)}, func(g []pattern.Given) (float64, error) {
		return value(pattern.GluedBoard(g[0], g[1], g[2], g[3]))
	}},
	{"wheel", []input{need(150, 380, 700), need(8, 28, 80), habit(0, 0.03, 0.2), habit(0, 4, 100), habit(1, 4, 20), habit(0, 2.5, 30)}, func(g []pattern.Given) (float64, error) {
		w, err := pattern.Wheel{Rim: g[0], Grip: g[1], Stretch: g[2], Closure: g[3], Pitch: g[4], Cross: g[5], Spokes: []float64{90, 210, 330}}.Strip()
		var pieces []pattern.Piece
		for _, s := range w.Segments {
			pieces = append(pieces, s.Piece)
		}
		return sound(w.Width.Value, err, pieces...)
	}},
	{"gaiter", []input{need(200, 600, 5000), need(20, 200, 600), need(5, 2000, 2000), habit(0, 50, 1000)}, func(g []pattern.Given) (float64, error) {
		p, err := pattern.Gaiter{Foot: g[0], Head: g[1], Height: g[2], Travel: g[3]}.Pattern()
		return sound(p.Slant.Value, err, p.Piece)
	}},
	{"panelled gaiter", []input{need(200, 600, 5000), need(20, 200, 600), need(5, 150, 2000), habit(0, 50, 1000)}, func(g []pattern.Given) (float64, error) {
		p, err := pattern.Gaiter{Foot: g[0], Head: g[1], Height: g[2], Travel: g[3], Panels: 4}.Pattern()
		return sound(p.Slant.Value, err, p.Piece)
	}},
	{"headliner", []input{need(20, 400, 3000), need(20, 500, 3000), need(100, 1100, 4000), need(100, 1180, 4000), need(100, 1120, 4000), habit(1, 8, 60), habit(0, 10, 100), habit(1, 12, 100), habit(5, 50, 200)}, func(g []pattern.Given) (float64, error) {
		h, err := pattern.Headliner{Spans: g[:2], Widths: g[2:5], Bow: g[5], Ease: g[6], Allowance: g[7], Sides: g[8]}.Panels()
		return sound(h.Cloth.Value, err, h.Panels...)
	}},
}

// sound also cuts the pieces that a recipe draws.
func sound(v float64, err error, pieces ...pattern.Piece) (float64, error) {
	for _, p := range pieces {
		if err == nil {
			_, err = p.Cut(0)
		}
	}
	return v, err
}

// TestFormulas_Limits takes every number of every formula to both its limits and
// past them, to what is no number, and leaves it out: a formula gives a finite
// figure that is not negative, or refuses with the name of the number and a hint.
func TestFormulas_Limits(t *testing.T) {
	for _, f := range formulas {
		try := func(k int, g pattern.Given) (float64, error) {
			all := make([]pattern.Given, len(f.inputs))
			for i, in := range f.inputs {
				all[i] = v(in.good)
			}
			all[k] = g
			return f.of(all)
		}
		for k, in := range f.inputs {
			for _, x := range []float64{in.low, in.good, in.high} {
				if got, err := try(k, v(x)); err != nil || !(got >= 0) || math.IsInf(got, 0) {
					t.Errorf("%s, number %d at %g: %g, %v", f.name, k+1, x, got, err)
				}
			}
			bad := []float64{math.Nextafter(in.low, -1), math.Nextafter(in.high, 1e9), -in.high, math.NaN(), math.Inf(1), math.Inf(-1)}
			if in.whole {
				bad = append(bad, in.low+0.5)
			}
			for _, x := range bad {
				if _, err := try(k, v(x)); fault.KindOf(err) != fault.Invalid || err == nil || fault.HintOf(err) == "" || !strings.Contains(err.Error(), ", ") {
					t.Errorf("%s, number %d at %g: %v (%s), want it refused by name, with a hint", f.name, k+1, x, err, fault.HintOf(err))
				}
			}
			_, err := try(k, pattern.Given{})
			if f.name == "bobbins" {
				continue // not counted where nobody says what one holds
			}
			if in.habit != (err == nil) || err != nil && (!strings.Contains(err.Error(), "it is not given") || fault.HintOf(err) == "") {
				t.Errorf("%s, number %d left out: %v", f.name, k+1, err)
			}
		}
	}
}
