package pattern_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"fettle/engine/pattern"
	"fettle/geom"
)

// along is how far along a closed line a place lies, measured anew from its
// points.
func along(line pattern.Line, q geom.Point) float64 {
	best, at, sum := math.Inf(1), 0.0, 0.0
	for i, a := range line {
		b := line[(i+1)%len(line)]
		d, long := b.Sub(a), a.Distance(b)
		t := min(max((q.Sub(a).X*d.X+q.Sub(a).Y*d.Y)/(long*long), 0), 1)
		if off := q.Distance(a.Add(d.Scale(t))); off < best {
			best, at = off, sum+t*long
		}
		sum += long
	}
	return at
}

// FuzzMarks draws a random outline and its mirror image, sewn to one another all
// the way round: the slits stand at the same ways on both, outside the sewn line
// and inside the cut, and the pieces are as large as one another.
func FuzzMarks(f *testing.F) {
	for seed := range uint64(30) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, seed uint64) {
		p := star(seed)
		for i := range p.Edges {
			if p.Edges[i].Kind == pattern.Raw {
				p.Edges[i].Kind, p.Edges[i].Allowance = pattern.Plain, 12
			}
		}
		if p.Check() != nil {
			t.Skip()
		}
		p.Name, p.Arrow = "star", pattern.Arrow{Kind: "nap", Angle: 30}
		q := p.Mirror("twin")
		if !reflect.DeepEqual(q.Mirror("star"), p) {
			t.Fatalf("seed %d: twice mirrored it is another", seed)
		}
		m := pattern.Seam{ID: "s", Kind: pattern.Plain}
		for _, e := range p.Edges {
			m.A, m.B = append(m.A, pattern.Ref{Piece: "star", Edge: e.Name}), append(m.B, pattern.Ref{Piece: "twin", Edge: e.Name})
		}
		drawn, fits, err := pattern.Set{Pieces: []pattern.Piece{p, q}, Seams: []pattern.Seam{m}}.Draw()
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if !fits[0].Fits || !near(fits[0].Ease, 0, 1e-9) || !near(drawn[0].Area, drawn[1].Area, 1e-9) {
			t.Fatalf("seed %d: %+v, %g and %g m²", seed, fits[0].Tell, drawn[0].Area, drawn[1].Area)
		}
		for _, d := range drawn {
			cut, sewn := layer(d, pattern.CutLayer)[0], layer(d, pattern.SewLayer)[0]
			for _, n := range layer(d, pattern.NotchLayer) {
				if geom.Ring(cut).Distance(n[0]) > 1e-6 || geom.Ring(sewn).Contains(n[0]) {
					t.Errorf("seed %d: a slit from %v to %v begins off the cut line", seed, n[0], n[1])
				}
			}
		}
		if a, b := len(layer(drawn[0], pattern.NotchLayer)), len(layer(drawn[1], pattern.NotchLayer)); a != b {
			t.Errorf("seed %d: %d and %d slits", seed, a, b)
		}
	})
}

// TestSet_Draw_Marks measures the slits of a curved seam on both drawn pieces:
// they stand at one way from the seam's start.
func TestSet_Draw_Marks(t *testing.T) {
	wave := func(bulge float64) (l pattern.Line) { // an arc of a circle 500 wide
		for i := range 101 {
			x := float64(i) * 5
			l = append(l, geom.Point{X: x, Y: bulge * math.Sin(math.Pi*x/500)})
		}
		return l
	}
	upper := append(wave(-60), geom.Point{X: 500, Y: 300}, geom.Point{X: 0, Y: 300})
	lower := append(pattern.Line{{X: 0, Y: -300}, {X: 500, Y: -300}}, pattern.Line(geom.Ring(wave(-60)).Reversed())...)
	a := pattern.Piece{ID: "upper", Line: upper, Edges: []pattern.Edge{{Name: "wave", Kind: pattern.Plain}, {Name: "rest", From: 100, Kind: pattern.Hem}}}
	b := pattern.Piece{ID: "lower", Line: lower, Edges: []pattern.Edge{{Name: "rest", Kind: pattern.Hem}, {Name: "right", From: 1, Kind: pattern.Raw}, {Name: "wave", From: 2, Kind: pattern.Plain}, {Name: "left", From: 102, Kind: pattern.Raw}}}
	drawn, fits, err := pattern.Set{Pieces: []pattern.Piece{a, b}, Seams: []pattern.Seam{{ID: "s", Kind: pattern.Plain, A: []pattern.Ref{{Piece: "upper", Edge: "wave"}}, B: []pattern.Ref{{Piece: "lower", Edge: "wave"}}}}}.Draw()
	if err != nil || !fits[0].Fits {
		t.Fatal(err, fits)
	}
	where := func(d pattern.Drawn, start geom.Point, back bool) (out []float64) {
		sewn := layer(d, pattern.SewLayer)[0]
		round := sewn.Length() + sewn[0].Distance(sewn[len(sewn)-1])
		for _, n := range layer(d, pattern.NotchLayer) {
			way := n[1].Sub(n[0])
			foot := n[1].Add(way.Scale((12 - way.Scale(1).Distance(geom.Point{})) / way.Distance(geom.Point{}))) // on to the sewn line, 12 mm in
			x := along(sewn, foot) - along(sewn, start)
			if back {
				x = -x
			}
			out = append(out, math.Mod(x+round, round))
		}
		slices.Sort(out)
		return out
	}
	x, y := where(drawn[0], geom.Point{X: 0, Y: 0}, false), where(drawn[1], geom.Point{X: 0, Y: 0}, true)
	if len(x) < 4 || len(x) != len(y) {
		t.Fatal(x, y)
	}
	for i := range x {
		if !near(x[i], y[i], 1e-4) { // double slits stand off a chord's own tangent
			t.Errorf("slit %d at %g and %g mm", i, x[i], y[i])
		}
	}
}

// TestSet_Draw_Snips: an inner corner gets one slit to 2 mm from the seam, along
// its middle; an outer corner none.
func TestSet_Draw_Snips(t *testing.T) {
	p := piece(pattern.Line{{X: 0, Y: 0}, {X: 200, Y: 0}, {X: 200, Y: 100}, {X: 100, Y: 100}, {X: 100, Y: 200}, {X: 0, Y: 200}}, 10, 10, 10, 10, 10, 10)
	drawn, _, err := pattern.Set{Pieces: []pattern.Piece{p}}.Draw()
	if err != nil {
		t.Fatal(err)
	}
	snips := layer(drawn[0], pattern.SnipLayer)
	if len(snips) != 1 || snips[0][0].Distance(geom.Point{X: 110, Y: 110}) > 1e-9 || !near(snips[0][1].Distance(geom.Point{X: 100, Y: 100}), 2, 1e-9) {
		t.Errorf("snips %v", snips)
	}
	slot := piece(pattern.Line{{X: 0, Y: 0}, {X: 200, Y: 0}, {X: 200, Y: 100}, {X: 105, Y: 100}, {X: 105, Y: 40}, {X: 95, Y: 40}, {X: 95, Y: 100}, {X: 0, Y: 100}}, 10, 10, 10, 10, 10, 10, 10, 10)
	if drawn, _, _ = (pattern.Set{Pieces: []pattern.Piece{slot}}).Draw(); len(layer(drawn[0], pattern.SnipLayer)) != 0 || len(drawn[0].Remarks) != 2 {
		t.Errorf("a slot that its allowances fill: %v", drawn[0].Remarks)
	}
	p.Edges[3].Kind, p.Edges[3].Allowance = pattern.Raw, 0
	if drawn, _, _ = (pattern.Set{Pieces: []pattern.Piece{p}}).Draw(); len(layer(drawn[0], pattern.SnipLayer)) != 0 {
		t.Error("a raw edge is snipped")
	}
}

// FuzzFlat spreads random outlines: as much wider as lines take up, the area
// larger, the cut line still good, every edge still there.
func FuzzFlat(f *testing.F) {
	for seed := range uint64(30) {
		f.Add(seed, float64(seed)*17)
	}
	f.Fuzz(func(t *testing.T, seed uint64, angle float64) {
		p := star(seed)
		if p.Check() != nil || math.IsNaN(angle) || math.Abs(angle) > 1e4 {
			t.Skip()
		}
		rng := rand.New(rand.NewPCG(seed, 9))
		p.Pleats = &pattern.Pleats{Angle: angle, Loss: 8 * rng.Float64()}
		for at := -150.0; at < 150; at += 20 + 60*rng.Float64() {
			p.Pleats.At = append(p.Pleats.At, at)
		}
		q, err := p.Flat()
		if err != nil {
			return // a line beside a narrow outline
		}
		s, c := math.Sincos(angle * math.Pi / 180)
		wide := func(l pattern.Line) float64 {
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, r := range l {
				x := -s*r.X + c*r.Y
				lo, hi = min(lo, x), max(hi, x)
			}
			return hi - lo
		}
		if want := wide(p.Line) + p.Pleats.Loss*float64(len(p.Pleats.At)); !near(wide(q.Line), want, 1e-6) || geom.RingArea(q.Line) < geom.RingArea(p.Line)-1e-6 {
			t.Errorf("seed %d: %g mm wide, want %g", seed, wide(q.Line), want)
		}
		for i, e := range q.Edges {
			if e.Name != p.Edges[i].Name || e.Allowance != p.Edges[i].Allowance {
				t.Errorf("seed %d: edge %+v was %+v", seed, e, p.Edges[i])
			}
		}
		if _, err := q.Cut(0); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
	})
}
