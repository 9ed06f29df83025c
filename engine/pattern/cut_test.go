package pattern_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fettle/engine/pattern"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/overlay"
)

// piece is an outline whose sides are edges a, b, c … of given allowances; 0 is
// a raw edge.
func piece(line pattern.Line, allowances ...float64) pattern.Piece {
	p := pattern.Piece{ID: "P", Line: line}
	for i, a := range allowances {
		e := pattern.Edge{Name: string(rune('a' + i)), From: i, Kind: pattern.Plain, Allowance: a}
		if a == 0 {
			e.Kind = pattern.Raw
		}
		p.Edges = append(p.Edges, e)
	}
	return p
}

func rect(w, h float64) pattern.Line {
	return pattern.Line{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}
}

func near(a, b, within float64) bool { return math.Abs(a-b) <= within }

// The cut lines of these outlines are plain to draw by hand.
func TestCut_ClosedForms(t *testing.T) {
	circle := pattern.Line{}
	for i := range 360 {
		s, c := math.Sincos(float64(i) * math.Pi / 180)
		circle = append(circle, geom.Point{X: 100 * c, Y: 100 * s})
	}
	spike := pattern.Line{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 0, Y: 10}} // 5.7° at its tip
	for _, c := range []struct {
		name string
		p    pattern.Piece
		mm2  float64
	}{
		{"a cut size of 4.8 with a seam all round", piece(rect(446, 456), 12, 12, 12, 12), 470 * 480},
		{"each edge by its own", piece(rect(100, 50), 10, 20, 0, 5), 125 * 60},
		{"L: the inner corner is trimmed", piece(pattern.Line{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 40}, {X: 40, Y: 40}, {X: 40, Y: 100}, {X: 0, Y: 100}}, 10, 10, 10, 10, 10, 10), 120*60 + 60*60},
		{"a straight edge whose allowance steps", piece(pattern.Line{{X: 0, Y: 0}, {X: 50, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 50}, {X: 0, Y: 50}}, 10, 20, 0, 0, 0), 5000 + 500 + 1000},
		{"a circle of 360 chords", piece(circle, 12), 360 * 0.5 * math.Pow(100+12/math.Cos(math.Pi/360), 2) * math.Sin(math.Pi/180)},
		{"a slot filled from both sides", piece(pattern.Line{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 60}, {X: 55, Y: 60}, {X: 55, Y: 20}, {X: 45, Y: 20}, {X: 45, Y: 60}, {X: 0, Y: 60}}, 10, 10, 10, 10, 10, 10, 10, 10), 120 * 80},
		{"a spike is cut off at twice its allowance", piece(spike, 10, 0, 0), 2000 - 0.05*math.Pow(math.Sqrt(10100)-20, 2)},
	} {
		got, err := c.p.Cut(0)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if a := got.Area() * 1e6; !near(a, c.mm2, 1e-3) {
			t.Errorf("%s: %.4f mm² inside the cut line, want %.4f", c.name, a, c.mm2)
		}
	}
}

func TestCut_Refuses(t *testing.T) {
	good := piece(rect(100, 50), 10, 10, 10, 10)
	for _, c := range []struct {
		with  func(*pattern.Piece)
		mitre float64
		want  string
	}{
		{func(p *pattern.Piece) { p.ID = "" }, 0, "piece: a piece without an ID"},
		{func(p *pattern.Piece) { p.Line = p.Line[:2] }, 0, "piece P, line: "},
		{func(p *pattern.Piece) { p.Line[1], p.Line[2] = p.Line[2], p.Line[1] }, 0, "piece P, line"},
		{func(p *pattern.Piece) { p.Line = pattern.Line(geom.Ring(p.Line).Reversed()) }, 0, "piece P, line: its outline runs clockwise"},
		{func(p *pattern.Piece) { p.Line = make(pattern.Line, pattern.MostPoints+1) }, 0, "piece P, line: its outline has 20001 points"},
		{func(p *pattern.Piece) { p.Edges = nil }, 0, "piece P, edges: "},
		{func(p *pattern.Piece) { p.Edges[1].Name = "a" }, 0, "piece P, edges: "},
		{func(p *pattern.Piece) { p.Edges[1].Kind = "zip" }, 0, "piece P, edge b: no kind"},
		{func(p *pattern.Piece) { p.Edges[1].From = 0 }, 0, "piece P, edge b: it starts"},
		{func(p *pattern.Piece) { p.Edges[1].Allowance = math.NaN() }, 0, "piece P, edge b: an allowance of NaN"},
		{func(p *pattern.Piece) { p.Edges[1].Kind = pattern.Butt }, 0, "piece P, edge b: a butt edge"},
		{func(*pattern.Piece) {}, 0.5, "mitre: "},
	} {
		p := good
		p.Line, p.Edges = append(pattern.Line(nil), good.Line...), append([]pattern.Edge(nil), good.Edges...)
		c.with(&p)
		if _, err := p.Cut(c.mitre); err == nil || !strings.HasPrefix(err.Error(), c.want) || fault.KindOf(err) == fault.Internal {
			t.Errorf("got %v, want %s…", err, c.want)
		}
	}
}

// star is a random outline about a centre, smooth or spiky, with edges of
// random allowances.
func star(seed uint64) pattern.Piece {
	rng := rand.New(rand.NewPCG(seed, 5))
	n := 3 + rng.IntN(40)
	low := []float64{0.03, 0.3, 0.9}[rng.IntN(3)]
	p := pattern.Piece{ID: "star"}
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.6*rng.Float64()) / float64(n))
		k := 300 * (low + (1-low)*rng.Float64())
		p.Line = append(p.Line, geom.Point{X: k * c, Y: k * s})
		if i == 0 || rng.IntN(3) == 0 {
			e := pattern.Edge{Name: string(rune('a' + i)), From: i, Kind: pattern.Plain, Allowance: []float64{5, 12, 12, 25, 60}[rng.IntN(5)]}
			if rng.IntN(6) == 0 {
				e.Kind, e.Allowance = pattern.Raw, 0
			}
			p.Edges = append(p.Edges, e)
		}
	}
	return p
}

func FuzzCut(f *testing.F) {
	for seed := range uint64(60) {
		f.Add(seed, 0.0)
	}
	f.Add(uint64(7), 1.0)
	f.Fuzz(func(t *testing.T, seed uint64, mitre float64) {
		p := star(seed)
		if p.Check() != nil {
			t.Skip()
		}
		c, err := p.Cut(mitre)
		if err != nil {
			if fault.KindOf(err) == fault.Internal {
				t.Fatalf("seed %d: %v", seed, err)
			}
			return
		}
		if c.Area()*1e6 < geom.RingArea(p.Line)-1e-3 {
			t.Errorf("seed %d: the cut line holds %g mm², the sewn one %g", seed, c.Area()*1e6, geom.RingArea(p.Line))
		}
	})
}

// TestCut_Offset holds a cut of one allowance to the round offset of another
// hand: it holds all of it, and reaches no further than the mitres.
func TestCut_Offset(t *testing.T) {
	for seed := range uint64(12) {
		p := star(seed)
		p.Edges = []pattern.Edge{{Name: "all", Kind: pattern.Plain, Allowance: 12}}
		c, err := p.Cut(0)
		if err != nil {
			t.Fatal(err)
		}
		round, err := overlay.Offset([]geom.Polygon{{Outer: p.Line}}, 12, overlay.Round{Chord: 0.01})
		if err != nil {
			t.Fatal(err)
		}
		short := 0.0
		for _, q := range round[0].Outer {
			if !geom.Ring(c.Line).Contains(q) {
				short = max(short, geom.Ring(c.Line).Distance(q))
			}
		}
		if reach := farthest(c.Line, p.Line); short > 0.02 || reach > math.Hypot(24, 12)+0.001 {
			t.Errorf("seed %d: %.3f mm within the round offset, %.3f mm from the sewn line", seed, short, reach)
		}
	}
}

func farthest(line, from pattern.Line) (most float64) {
	for _, q := range line {
		most = max(most, geom.Ring(from).Distance(q))
	}
	return most
}

// TestCheckCut shows that wrong cut lines are seen.
func TestCheckCut(t *testing.T) {
	p := piece(rect(100, 50), 10, 10, 10, 10)
	for _, c := range []struct {
		name string
		line pattern.Line
		want string
	}{
		{"right", pattern.Line{{X: -10, Y: -10}, {X: 110, Y: -10}, {X: 110, Y: 60}, {X: -10, Y: 60}}, ""},
		{"a side too near", pattern.Line{{X: -10, Y: -9.9}, {X: 110, Y: -9.9}, {X: 110, Y: 60}, {X: -10, Y: 60}}, "0.1 mm too near"},
		{"a side too far", pattern.Line{{X: -10, Y: -11}, {X: 110, Y: -11}, {X: 110, Y: 60}, {X: -10, Y: 60}}, "1 mm too far"},
		{"a corner off", pattern.Line{{X: 0, Y: -10}, {X: 110, Y: -10}, {X: 110, Y: 60}, {X: -10, Y: 60}, {X: -10, Y: 0}}, "mm too near"},
		{"elsewhere", pattern.Line{{X: 190, Y: -10}, {X: 310, Y: -10}, {X: 310, Y: 60}, {X: 190, Y: 60}}, "too far"},
		{"crossed", pattern.Line{{X: -10, Y: -10}, {X: 110, Y: 60}, {X: 110, Y: -10}, {X: -10, Y: 60}}, "cut line"},
		{"nothing", pattern.Line{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 0, Y: 1}}, "holds less"},
	} {
		_, err := p.CheckCut(c.line, 2)
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}
