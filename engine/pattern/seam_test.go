package pattern_test

import (
	"math"
	"strings"
	"testing"

	"fettle/engine/pattern"
	"fettle/fault"
	"fettle/geom"
)

// cushion is a face of 470 × 480 mm with a boxing round it whose ends meet at
// the rear; the face is of two pieces sewn across.
func cushion() pattern.Set {
	front, rear := piece(rect(470, 300), 12, 12, 12, 12), piece(rect(470, 180), 12, 12, 12, 12)
	front.ID, rear.ID = "front", "rear"
	_, box, _ := pattern.Boxing(v(2*470+2*480), v(106), v(12))
	ref := func(list ...string) (out []pattern.Ref) {
		for _, s := range list {
			p, e, _ := strings.Cut(s, " ")
			out = append(out, pattern.Ref{Piece: p, Edge: e})
		}
		return out
	}
	return pattern.Set{Name: "cushion", Pieces: []pattern.Piece{front, rear, box}, Seams: []pattern.Seam{
		{ID: "round", Kind: pattern.Piped, A: ref("rear c", "rear d", "front d", "front a", "front b", "rear b"), B: ref("boxing lower"), Piping: "edge"},
		{ID: "across", Kind: pattern.French, A: ref("front c"), B: ref("rear a")},
		{ID: "end", Kind: pattern.Plain, A: []pattern.Ref{{Piece: "boxing", Edge: "end 1"}}, B: []pattern.Ref{{Piece: "boxing", Edge: "end 2"}}, Closes: true},
	}}
}

func TestSet_Fit(t *testing.T) {
	set := cushion()
	f, err := set.Fit(set.Seams[0])
	if err != nil {
		t.Fatal(err)
	}
	if !f.Fits || !near(f.A, 1900, 1e-9) || !near(f.Ease, 0, 1e-12) {
		t.Errorf("the boxing does not fit: %+v", f)
	}
	why, at := "", 0.0
	for _, n := range append(f.Notches, pattern.Notch{A: 1, B: 1}) {
		if n.A != n.B || (n.A-at)*f.A > 150+1e-6 || (n.A-at)*f.A < 30 || n.Double != (n.A > 0.5) && n.A < 1 {
			t.Errorf("notch %+v after %g", n, at)
		}
		if n.Why != "pitch" && n.A < 1 {
			why += n.Why + " "
		}
		at = n.A
	}
	if why != "corner crossing corner corner crossing " {
		t.Errorf("notches for %q", why)
	}
	for _, c := range []struct {
		with func(*pattern.Set)
		fits bool
		tell string
	}{
		{func(s *pattern.Set) { s.Pieces[2].Line = rect(1918, 106) }, true, ""},
		{func(s *pattern.Set) { s.Pieces[2].Line = rect(1920, 106) }, false, "side B is 1920.0 mm, side A 1900.0 mm: 1.05 %, 0 % is designed"},
		{func(s *pattern.Set) { s.Pieces[2].Line, s.Seams[0].Ease = rect(1957, 106), 0.03 }, true, ""},
		{func(s *pattern.Set) { s.Pieces[2].Line, s.Seams[0].Ease = rect(1976, 106), 0.04 }, false, "an ease of 4 % is designed, at most 3 % is sewn"},
		{func(s *pattern.Set) { s.Seams[0].Match = []pattern.Match{{A: 0.5, B: 0.48}} }, false, "-4 % over 118 mm: more than 3 % cannot be eased in"},
	} {
		s := cushion()
		c.with(&s)
		f, err := s.Fit(s.Seams[0])
		all := f.Tell
		for _, p := range f.Parts {
			all += p.Tell
		}
		if err != nil || f.Fits != c.fits || !strings.Contains(all, c.tell) {
			t.Errorf("fits %v, %q, %v; want %v, %q", f.Fits, all, err, c.fits, c.tell)
		}
	}
}

// TestSet_Fit_Ease: an ease between two places that must meet falls there, and
// nowhere else.
func TestSet_Fit_Ease(t *testing.T) {
	a, b := piece(rect(500, 100), 12, 12, 12, 12), piece(rect(506, 100), 12, 12, 12, 12)
	a.ID, b.ID = "a", "b"
	s := pattern.Set{Pieces: []pattern.Piece{a, b}}
	f, err := s.Fit(pattern.Seam{ID: "s", Kind: pattern.Plain, A: []pattern.Ref{{Piece: "a", Edge: "a"}}, B: []pattern.Ref{{Piece: "b", Edge: "a"}}, Ease: 0.012,
		Match: []pattern.Match{{A: 100.0 / 500, B: 100.0 / 506}, {A: 400.0 / 500, B: 406.0 / 506}}})
	if err != nil || !f.Fits {
		t.Fatal(f, err)
	}
	sum := 0.0
	for _, p := range f.Parts {
		sum += p.B
		want := 0.02
		if p == f.Parts[0] || p == f.Parts[len(f.Parts)-1] {
			want = 0
		}
		if !near(p.Ease, want, 1e-9) {
			t.Errorf("part %+v, want ease %g", p, want)
		}
	}
	if !near(sum, 506, 1e-9) {
		t.Errorf("parts add up to %g", sum)
	}
}

func TestSet_Fit_Refuses(t *testing.T) {
	for _, c := range []struct {
		with func(*pattern.Seam)
		want string
	}{
		{func(m *pattern.Seam) { m.A = nil }, "seam across, side A: a side of no edge"},
		{func(m *pattern.Seam) { m.B[0].Piece = "lid" }, `seam across, side B: no piece "lid"`},
		{func(m *pattern.Seam) { m.B[0].Edge = "z" }, `seam across, side B: piece rear has no edge "z"`},
		{func(m *pattern.Seam) { m.A = []pattern.Ref{{Piece: "front", Edge: "a"}, {Piece: "front", Edge: "c"}} }, "seam across, side A: edge c of piece front does not go on"},
		{func(m *pattern.Seam) { m.Kind = pattern.Hem }, "seam across: two pieces are not joined"},
		{func(m *pattern.Seam) { m.Ease = math.NaN() }, "seam across: an ease of NaN"},
		{func(m *pattern.Seam) { m.Match = []pattern.Match{{A: 0.5, B: 1.5}} }, "seam across: places that meet"},
	} {
		s := cushion()
		m := s.Seams[1]
		c.with(&m)
		if _, err := s.Fit(m); err == nil || !strings.HasPrefix(err.Error(), c.want) || fault.KindOf(err) != fault.Invalid {
			t.Errorf("got %v, want %s", err, c.want)
		}
	}
}

// TestSet_Fit_Curve: the sharpest place of a parabola is its vertex; a circle
// has none.
func TestSet_Fit_Curve(t *testing.T) {
	var bowl pattern.Line
	for i := range 101 {
		x := float64(i)*4 - 200
		bowl = append(bowl, geom.Point{X: x, Y: x * x / 100})
	}
	p := pattern.Piece{ID: "p", Line: bowl, Edges: []pattern.Edge{{Name: "bowl", Kind: pattern.Plain}, {Name: "top", From: 100, Kind: pattern.Raw}}}
	q := p.Mirror("q")
	s := pattern.Set{Pieces: []pattern.Piece{p, q}}
	f, err := s.Fit(pattern.Seam{ID: "s", Kind: pattern.Plain, A: []pattern.Ref{{Piece: "p", Edge: "bowl"}}, B: []pattern.Ref{{Piece: "q", Edge: "bowl"}}})
	if err != nil || !f.Fits {
		t.Fatal(f, err)
	}
	found := 0
	for _, n := range f.Notches {
		if n.Why == "curve" {
			found++
			if !near(n.A*f.A, f.A/2, 2) {
				t.Errorf("the sharpest place at %g of %g mm", n.A*f.A, f.A)
			}
		}
	}
	if found != 1 {
		t.Errorf("%d sharpest places", found)
	}
	_, _, disc, _ := pattern.Bolster(v(500), v(150), none, v(12))
	s.Pieces = append(s.Pieces, disc)
	f, err = s.Fit(pattern.Seam{ID: "s", Kind: pattern.Plain, A: []pattern.Ref{{Piece: "bolster-end", Edge: "round"}}, B: []pattern.Ref{{Piece: "bolster-end", Edge: "round"}}})
	for _, n := range f.Notches {
		if n.Why != "pitch" {
			t.Errorf("a circle has a notch for %s, %v", n.Why, err)
		}
	}
}
