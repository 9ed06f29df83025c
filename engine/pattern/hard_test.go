package pattern_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fettle/engine/pattern"
	"fettle/fault"
	"fettle/geom"
	"pgregory.net/rapid"
)

// TestCut_Mitre: a corner of any angle keeps its tip, at allowance ÷ sin half
// the angle, up to the mitre's reach, and is cut off squarely there beyond.
func TestCut_Mitre(t *testing.T) {
	for _, mitre := range []float64{1, 1.2, 2, 5, 20} {
		for _, degrees := range []float64{179.9, 120, 90, 60.1, 60, 59.9, 45, 30, 10, 5.75, 2, 0.5} {
			half := degrees / 2 * math.Pi / 180
			s, c := math.Sincos(half)
			p := pattern.Piece{ID: "P", Line: pattern.Line{{}, {X: -500 * c, Y: 500 * s}, {X: -500 * c, Y: -500 * s}},
				Edges: []pattern.Edge{{Name: "up", From: 0, Kind: pattern.Plain, Allowance: 12}, {Name: "back", From: 1, Kind: pattern.Raw}, {Name: "down", From: 2, Kind: pattern.Plain, Allowance: 12}}}
			got, err := p.Cut(mitre)
			if err != nil {
				t.Errorf("%g° with a mitre of %g: %v", degrees, mitre, err)
				continue
			}
			reach, tips := math.Inf(-1), 0
			for _, q := range got.Line {
				reach = max(reach, q.X)
			}
			for _, q := range got.Line {
				if q.X > reach-1e-7 {
					tips++
				}
			}
			tip, most := 12/s, 12*mitre
			if want := min(tip, most); !near(reach, want, 1e-6) || math.Abs(tip-most) > 1e-3 && (tips == 1) != (tip < most) {
				t.Errorf("%g° with a mitre of %g reaches %.6f mm with %d points, want %.6f", degrees, mitre, reach, tips, want)
			}
		}
	}
	for _, mitre := range []float64{-1, 0.999, 20.001, math.NaN(), math.Inf(1)} {
		if _, err := piece(rect(100, 50), 10, 10, 10, 10).Cut(mitre); fault.KindOf(err) != fault.Invalid || fault.HintOf(err) == "" {
			t.Errorf("a mitre of %g: %v", mitre, err)
		}
	}
}

// TestCut_TinyEdges puts edges of a thousandth of a millimetre and more, with
// allowances of their own, into outlines: they are cut, or refused as outlines
// that are none.
func TestCut_TinyEdges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := star(rapid.Uint64Range(0, 2000).Draw(t, "star"))
		tiny := rapid.SampledFrom([]float64{1e-3, 1e-2, 0.1, 1}).Draw(t, "tiny")
		at := rapid.IntRange(0, len(p.Line)-1).Draw(t, "at")
		a, b := p.Line[at], p.Line[(at+1)%len(p.Line)]
		way := b.Sub(a).Scale(1 / a.Distance(b))
		square := geom.Point{X: way.Y, Y: -way.X}.Scale(rapid.SampledFrom([]float64{0, tiny, -tiny}).Draw(t, "off"))
		mid := a.Add(b).Scale(0.5)
		line := slices.Insert(slices.Clone(p.Line), at+1, mid, mid.Add(way.Scale(tiny)).Add(square))
		p.Line, p.Edges = line, nil
		for i := range line {
			p.Edges = append(p.Edges, pattern.Edge{Name: fmt.Sprint(i), From: i, Kind: pattern.Plain, Allowance: rapid.SampledFrom([]float64{2, 12, 12, 25}).Draw(t, "allowance")})
		}
		if p.Check() != nil {
			t.Skip()
		}
		c, err := p.Cut(0)
		if err != nil {
			t.Fatal(err)
		}
		if least := geom.RingArea(p.Line); geom.RingArea(c.Line) < least {
			t.Fatalf("%g mm² within the cut, %g within the sewn line", geom.RingArea(c.Line), least)
		}
	})
}

// TestSet_Fit_Notches sews random pieces to others of nearly their length: the
// notches rise on both sides, keep their distance from each other and from the
// ends, leave no long way without one, and the parts add up to the sides.
func TestSet_Fit_Notches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := star(rapid.Uint64Range(0, 2000).Draw(t, "star"))
		if p.Check() != nil {
			t.Skip()
		}
		p.ID = "one"
		q := p.Mirror("other")
		k := rapid.Float64Range(0.97, 1.03).Draw(t, "scale")
		for i := range q.Line {
			q.Line[i] = q.Line[i].Scale(k)
		}
		m := pattern.Seam{ID: "s", Kind: pattern.Plain, RearAtA0: rapid.Bool().Draw(t, "rear")}
		first, many := rapid.IntRange(0, len(p.Edges)-1).Draw(t, "first"), rapid.IntRange(1, len(p.Edges)).Draw(t, "many")
		for i := range many { // all of them close on themselves
			name := p.Edges[(first+i)%len(p.Edges)].Name
			m.A, m.B = append(m.A, pattern.Ref{Piece: "one", Edge: name}), append(m.B, pattern.Ref{Piece: "other", Edge: name})
		}
		if rapid.Bool().Draw(t, "match") {
			m.Match = []pattern.Match{{A: 0.3, B: 0.31}, {A: 0.6, B: 0.59}}
		}
		f, err := pattern.Set{Pieces: []pattern.Piece{p, q}, Seams: []pattern.Seam{m}}.Fit(m)
		if err != nil {
			t.Fatal(err)
		}
		if !near(f.B/f.A, k, 1e-9) || len(f.Parts) != len(f.Notches)+1 {
			t.Fatalf("sides of %g and %g, %d parts between %d notches", f.A, f.B, len(f.Parts), len(f.Notches))
		}
		last, a, b := pattern.Notch{}, 0.0, 0.0
		for i, n := range append(f.Notches, pattern.Notch{A: 1, B: 1}) {
			way, least := (n.A-last.A)*f.A, 30.0
			if i == 0 || n.A == 1 {
				least = 15
			}
			if n.A <= last.A || n.B <= last.B || way > 150+1e-6 || len(f.Notches) > 0 && way < least-1e-6 {
				t.Fatalf("notch %d at %g, %g: %g mm behind the one before it", i, n.A, n.B, way)
			}
			if n.Double != (n.A > 0.5 != m.RearAtA0 && n.A != 0.5) && n.A < 1 {
				t.Fatalf("notch at %g is double: %v", n.A, n.Double)
			}
			a, b = a+f.Parts[i].A, b+f.Parts[i].B
			last = n
		}
		if !near(a, f.A, 1e-9*f.A) || !near(b, f.B, 1e-9*f.B) {
			t.Fatalf("parts add up to %g and %g of %g and %g", a, b, f.A, f.B)
		}
		if many == len(p.Edges) { // a closed seam is drawn as well
			if _, _, err := (pattern.Set{Pieces: []pattern.Piece{p, q}, Seams: []pattern.Seam{m}}).Draw(); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// TestSet_Order_Contradictions: every ring of reasons is told with all who are in
// it, and the steps come out all the same.
func TestSet_Order_Contradictions(t *testing.T) {
	for _, c := range []struct {
		name  string
		with  func(m []pattern.Seam)
		rings []string // each by seams that it must name
	}{
		{"none", func([]pattern.Seam) {}, nil},
		{"a seam before itself", func(m []pattern.Seam) { m[0].After = []string{"s0"} }, []string{"s0"}},
		{"a piped seam inside itself", func(m []pattern.Seam) { m[1].Piping, m[1].Inside = "cord", []string{"s1"} }, []string{"s1"}},
		{"two", func(m []pattern.Seam) { m[0].After, m[1].After = []string{"s1"}, []string{"s0"} }, []string{"s0 s1"}},
		{"a ring of four", func(m []pattern.Seam) {
			for i := range 4 {
				m[i].After = []string{fmt.Sprint("s", (i+1)%4)}
			}
		}, []string{"s0 s1 s2 s3"}},
		{"two rings apart", func(m []pattern.Seam) {
			m[0].After, m[1].After, m[2].Inside, m[3].Inside = []string{"s1"}, []string{"s0"}, []string{"s3"}, []string{"s2"}
		}, []string{"s0 s1", "s2 s3"}},
		{"closing before what must follow it", func(m []pattern.Seam) { m[0].Closes, m[1].After = true, []string{"s0"} }, nil},
	} {
		var s pattern.Set
		for i := range 5 {
			p := piece(rect(300, 200), 12, 12, 12, 12)
			p.ID = fmt.Sprint("p", i)
			s.Pieces = append(s.Pieces, p)
		}
		for i := range 4 {
			s.Seams = append(s.Seams, pattern.Seam{ID: fmt.Sprint("s", i), Kind: pattern.Plain,
				A: []pattern.Ref{{Piece: fmt.Sprint("p", i), Edge: "b"}}, B: []pattern.Ref{{Piece: fmt.Sprint("p", i+1), Edge: "d"}}})
		}
		c.with(s.Seams)
		o, err := s.Order()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		sewn := 0
		for _, st := range o.Steps {
			if st.Act == pattern.SewSeam {
				sewn++
			}
		}
		if sewn != 4 || len(o.Troubles) != len(c.rings) {
			t.Errorf("%s: %d of 4 seams are sewn, troubles %q", c.name, sewn, o.Troubles)
			continue
		}
		for i, ring := range c.rings {
			for _, id := range strings.Fields(ring) {
				if !strings.Contains(o.Troubles[i], " "+id) {
					t.Errorf("%s: %q does not name %s", c.name, o.Troubles[i], id)
				}
			}
		}
	}
}
