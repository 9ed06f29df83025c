package pattern_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"fettle/engine/pattern"
	"fettle/fault"
)

func told(o pattern.Order) string {
	var list []string
	for _, s := range o.Steps {
		list = append(list, string(s.Act)+" "+s.Of)
	}
	return strings.Join(list, ", ")
}

// TestSet_Order: the faces are joined and topped before the boxing runs across
// them; the boxing's ends before it goes round; the cord before the seam.
func TestSet_Order(t *testing.T) {
	for _, c := range []struct {
		name           string
		with           func(*pattern.Set)
		want, troubles string
	}{
		{"a cushion", func(*pattern.Set) {},
			"cover the cord edge, sew across, sew on top across, sew end, sew the piping on round, sew round", ""},
		{"with pleats and a motif on its front", func(s *pattern.Set) {
			s.Pieces[0].Pleats = &pattern.Pleats{At: []float64{100}, Loss: 3}
			s.Pieces[0].Motifs = []pattern.Motif{{Strokes: []pattern.Line{rect(5, 5)}}, {Cuts: true}}
		}, "sew the pleats front, stitch the motif front, cover the cord edge, sew across, sew on top across, sew end, sew the piping on round, sew round", ""},
		{"the end said to come first", func(s *pattern.Set) { s.Seams[1].After = []string{"end"} },
			"cover the cord edge, sew end, sew across, sew on top across, sew the piping on round, sew round", ""},
		{"a seam that crosses what nothing joins", func(s *pattern.Set) { s.Seams = s.Seams[:1] },
			"cover the cord edge, sew the piping on round, sew round", "Seam round goes from piece rear to piece front, and no seam joins a of the one to c of the other there."},
		{"a contradiction", func(s *pattern.Set) { s.Seams[1].After = []string{"round"} },
			"", "sew across comes after sew round, for it is said that seam round comes before seam across"},
		{"what lies inside first", func(s *pattern.Set) { s.Seams[2].Inside = []string{"across"} },
			"cover the cord edge, sew across, sew on top across, sew end, sew the piping on round, sew round", ""},
	} {
		s := cushion()
		c.with(&s)
		o, err := s.Order()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := told(o); c.want != "" && got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
		if got := strings.Join(o.Troubles, " "); (got == "") != (c.troubles == "") || !strings.Contains(got, c.troubles) {
			t.Errorf("%s: troubles %q, want %q", c.name, got, c.troubles)
		}
	}
}

// TestSet_Order_Closes: a sleeve is topped along its length before the seam that
// closes it, and the disc at its end is sewn after.
func TestSet_Order_Closes(t *testing.T) {
	_, body, end, _ := pattern.Bolster(v(500), v(150), none, v(12))
	pocket := piece(rect(471.238898038469, 40), 12, 12, 12, 12)
	pocket.ID = "trim"
	one := func(p, e string) []pattern.Ref { return []pattern.Ref{{Piece: p, Edge: e}} }
	s := pattern.Set{Pieces: []pattern.Piece{body, end, pocket}, Seams: []pattern.Seam{
		{ID: "close", Kind: pattern.Plain, A: one("bolster", "side 1"), B: one("bolster", "side 2"), Closes: true},
		{ID: "disc", Kind: pattern.Plain, A: one("bolster", "end 1"), B: one("bolster-end", "round")},
		{ID: "trim", Kind: pattern.TopStitch, A: one("bolster", "end 2"), B: one("trim", "a")}}}
	o, err := s.Order()
	if err != nil || len(o.Troubles) > 0 {
		t.Fatal(err, o.Troubles)
	}
	if got, want := told(o), "sew trim, sew on top trim, sew close, sew disc"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got := o.Steps[2].After; len(got) != 1 || got[0].Step != 1 || got[0].Why != "once seam close is sewn its pieces are a tube, and seam trim is inside" {
		t.Errorf("close comes after %+v", got)
	}
}

func TestSet_Order_Refuses(t *testing.T) {
	for _, with := range []func(*pattern.Set){
		func(s *pattern.Set) { s.Seams[1].ID = "round" },
		func(s *pattern.Set) { s.Seams[1].Inside = []string{"lid"} },
		func(s *pattern.Set) { s.Seams[0].A = nil },
		func(s *pattern.Set) { s.Pieces[0].Edges = nil },
	} {
		s := cushion()
		with(&s)
		if _, err := s.Order(); fault.KindOf(err) != fault.Invalid {
			t.Errorf("got %v", err)
		}
	}
}

// FuzzOrder: whatever is said, every step comes once, after all it names but
// those that a told contradiction sets aside.
func FuzzOrder(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, seed uint64) {
		rng := rand.New(rand.NewPCG(seed, 1))
		s := pattern.Set{}
		n := 2 + rng.IntN(6)
		for i := range n {
			p := piece(rect(300, 200), 12, 12, 12, 12)
			p.ID = fmt.Sprint(i)
			s.Pieces = append(s.Pieces, p)
		}
		any := func() pattern.Ref {
			return pattern.Ref{Piece: fmt.Sprint(rng.IntN(n)), Edge: string(rune('a' + rng.IntN(4)))}
		}
		kinds := []pattern.Kind{pattern.Plain, pattern.French, pattern.Piped}
		for i := range 1 + rng.IntN(8) {
			m := pattern.Seam{ID: fmt.Sprint("s", i), Kind: kinds[rng.IntN(3)], A: []pattern.Ref{any()}, B: []pattern.Ref{any()}, Closes: rng.IntN(4) == 0}
			if rng.IntN(2) == 0 {
				m.A = append(m.A, any())
			}
			for k := range i {
				if rng.IntN(4) == 0 {
					m.After = append(m.After, fmt.Sprint("s", k))
				}
			}
			if m.Kind == pattern.Piped {
				m.Piping = "p"
			}
			s.Seams = append(s.Seams, m)
		}
		s.Seams[0].After = []string{s.Seams[len(s.Seams)-1].ID}
		o, err := s.Order()
		if err != nil {
			return
		}
		late, once := 0, map[string]bool{}
		for i, st := range o.Steps {
			once[string(st.Act)+st.Of] = true
			for _, b := range st.After {
				if b.Step >= i {
					late++
				}
			}
		}
		if len(once) != len(o.Steps) || late > len(o.Troubles) {
			t.Errorf("seed %d: %d steps of %d kinds, %d out of order, troubles %v", seed, len(o.Steps), len(once), late, o.Troubles)
		}
	})
}

// TestSet_StitchSheet: a French seam of 470 mm through 4 mm at a pitch of 4 takes
// 470 mm × 4.0 and 15 % (section 3.2), its two rows on top are seen.
func TestSet_StitchSheet(t *testing.T) {
	s := cushion()
	s.Seams[1].Sewing = pattern.Sewing{Pitch: 4, Thread: "138", Stack: 4}
	s.Seams[1].Top = pattern.Sewing{Pitch: 5, Thread: "207", Needle: "170"}
	o, err := s.Order()
	if err != nil {
		t.Fatal(err)
	}
	rows, err := s.StitchSheet(o, v(1))
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, r := range rows {
		got += fmt.Sprintf("%s %s %d × %.0f mm, %g/%g, %s needle %s, %g, %d;", r.Act, r.Seam, r.Rows, r.Length, r.Pitch, r.TopAt, r.Thread, r.Needle, r.Allowance, r.Stitches)
	}
	want := "cover the cord edge 1 × 1900 mm, 4/0,  needle , 12, 475;sew across 1 × 470 mm, 4/0, 138 needle 125–150, 12, 118;sew on top across 2 × 470 mm, 5/5, 207 needle 170, 12, 188;" +
		"sew end 1 × 106 mm, 4/0,  needle , 12, 27;sew the piping on round 1 × 1900 mm, 4/0,  needle , 12, 475;sew round 1 × 1900 mm, 4/0,  needle , 12, 475;"
	if got != want {
		t.Errorf("rows\n%s, want\n%s", got, want)
	}
	a, top := rows[1].Takes, rows[2].Takes
	if a == nil || !near(a.Total.Value, 0.47*4*1.15, 1e-9) || a.Bobbins.Value != 2 || a.Joins {
		t.Errorf("across takes %+v", a)
	}
	if !near(top.Total.Value, 2*0.47*3.6*1.15, 1e-9) || rows[3].Takes != nil || top.Bobbins.Working.Caution == "" {
		t.Errorf("on top it takes %+v", top)
	}
	if _, err := s.StitchSheet(pattern.Order{Steps: []pattern.Step{{Act: pattern.SewSeam, Of: "lid"}}}, none); fault.KindOf(err) != fault.Invalid {
		t.Error(err)
	}
	s.Seams[1].Sewing.Pitch = 0.1
	if _, err := s.StitchSheet(o, v(1)); fault.KindOf(err) != fault.Invalid {
		t.Error(err)
	}
	for _, size := range pattern.ThreadSizes() {
		if size.Needle[0] > size.Needle[1] || size.Tex < 60 {
			t.Errorf("%+v", size)
		}
	}
}
