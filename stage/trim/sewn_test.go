package trim_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/geom"
	"fettle/rates"
	"fettle/stage/trim"
	"fettle/takeoff"
	"fettle/unit"
)

// supply returns the supply of that ID.
func supply(t *testing.T, b *build.Build, id string) trim.Supply {
	t.Helper()
	for _, s := range trim.Supplies(b) {
		if s.ID() == id {
			return s
		}
	}
	t.Fatalf("no supply %s", id)
	return trim.Supply{}
}

// bag is two squares of 400 mm sewn face to face along one side, 4 mm pitch
// through a stack of 4 mm.
func bag() build.Build {
	square := func(id build.PieceID) (build.Piece, build.Pattern) {
		p := build.Pattern{Piece: id, Revision: 1, Sewn: build.Ring{{12 * mm, 12 * mm}, {412 * mm, 12 * mm}, {412 * mm, 412 * mm}, {12 * mm, 412 * mm}},
			Edges: []build.PatternEdge{{Name: "foot", Seam: build.Plain, Allowance: 12 * mm}, {Name: "round", First: 1, Seam: build.Hem, Allowance: 12 * mm}}, Cut: build.Box(424*mm, 424*mm), Source: build.PatternSource{Kind: build.ByHand}}
		return build.Piece{ID: id, Name: "square", Width: 424 * mm, Height: 424 * mm, Quantity: 1, Material: "hide", Grade: "A", Axis: build.Axis{Tolerance: 10}}, p
	}
	one, first := square("A")
	two, second := square("B")
	return build.Build{Pieces: []build.Piece{one, two}, Patterns: []build.Pattern{first, second},
		Seams: []build.Seam{{ID: "Z1", Name: "foot", Kind: build.Plain, A: []build.EdgeOf{{Piece: "A", Edge: "foot"}}, B: []build.EdgeOf{{Piece: "B", Edge: "foot"}},
			Times: 1, Pitch: 4 * mm, Thread: "L1", Stack: 4 * mm, Seen: true}},
		Threads: []build.Thread{{ID: "L1", Name: "tan", Tex: 135, Bobbin: 36 * unit.Metre, Part: "Q1"}}, Parts: []build.Part{{ID: "Q1", Name: "thread", Quantity: 1}},
		Covers: []build.Cover{{ID: "V1", Material: "hide", Kind: "leather", Thickness: 1200}}}
}

// TestSupplies_Thread: 0.4 m of seam at 2 + 2 × 4 ÷ 4 = 4 m/m, with the waste
// of 15 %, is 1.84 m; without a measured stack it is two layers of 1.2 mm.
func TestSupplies_Thread(t *testing.T) {
	b := bag()
	if got := supply(t, &b, "thread/tan").Amount.Value; math.Abs(got-1.84) > 1e-9 {
		t.Errorf("%.3f m of thread, want 1.84", got)
	}
	b.Seams[0].Stack = 0
	if got := supply(t, &b, "thread/tan").Amount.Value; math.Abs(got-0.4*(2+2*2.4/4)*1.15) > 1e-9 {
		t.Errorf("%.3f m of thread through two layers", got)
	}
	b.Seams[0].Kind, b.Seams[0].Times = build.TopStitch, 3
	if got := supply(t, &b, "thread/tan").Amount.Value; math.Abs(got-3*2*0.4*3.2*1.15) > 1e-9 {
		t.Errorf("%.3f m of thread for three times two rows", got)
	}
	b.Patterns, b.Seams[0].Length = nil, 800*mm
	if got := supply(t, &b, "thread/tan").Amount.Value; math.Abs(got-3*2*0.8*3.2*1.15) > 1e-9 {
		t.Errorf("%.3f m of thread by the length said", got)
	}
}

// TestSupplies_OfTheDemo: sums by hand from its facts.
func TestSupplies_OfTheDemo(t *testing.T) {
	b := morning(t, october)
	for id, want := range map[string]struct {
		text string
		buy  int
		have int
	}{
		"sound deadening/on panels":                 {"5.80 m²", 6, 6}, // 1.9 + 0.9 + 2.3 + 0.7
		"foam/back":                                 {"26.6 l", 2, 0},  // 2 × 410 × 540 × 60
		"foam/bolster":                              {"58.1 l", 9, 0},  // 4 × 460 × 140 × 70 + 4 × 540 × 150 × 60 + 980 × 420 × 50
		"adhesive/contact adhesive":                 {"0.39 l", 1, 0},  // (0.92 + 0.90) × 2 ÷ 10.3 × 1.1
		"clips/for boards":                          {"44", 44, 0},     // 2 × (2 × (736 + 552) ÷ 120)
		"board/hardboard 3.0 mm":                    {"0.81 m²", 2, 0}, // 2 × 0.736 × 0.552
		"piping strips/T13 seat piping strips":      {"4", 4, 9},       // (6.4 m − 24) ÷ 1,776, rounded up
		"piping cord/washable piping cord 2.4 mm":   {"6.4 m", 7, 0},   // 2 × (1,541 + 1,507) + 12 × 25
		"adhesive/contact adhesive, heat-resisting": {"0.96 l", 1, 0},  // (4.05 + 0.43) × 2 ÷ 10.3 × 1.1
	} {
		if s := supply(t, &b, id); s.Amount.Working.Text != want.text || s.Buy != want.buy || s.Have != want.have {
			t.Errorf("%s: %s, %d to have, %d there; want %+v", id, s.Amount.Working.Text, s.Buy, s.Have, want)
		}
	}
	if s := supply(t, &b, "sound deadening/on panels"); s.Mass.Text != "18.4 kg" { // 4 × 2.6 + 2.5 × 3.2
		t.Errorf("it weighs %s", s.Mass.Text)
	}
	for part, want := range map[build.PartID]string{"Q54": "26.6 l", "Q58": "18.4 kg", "Q59": "44"} {
		list := trim.Stage{}.TakeOff(&b, rates.Default())
		i := slices.IndexFunc(list.Wants, func(w takeoff.Want) bool { return w.Part == part })
		if i < 0 || !strings.Contains(fmt.Sprint(list.Wants[i].Figure.Inputs), want) {
			t.Errorf("part %s does not say what it is for: %s", part, want)
		}
	}
}

// TestSupply_Want: what no part covers goes on the list as one part, which all
// of it names, and is covered then.
func TestSupply_Want(t *testing.T) {
	b := morning(t, october)
	s := supply(t, &b, "board/hardboard 3.0 mm")
	after, err := build.ApplyAll(b, s.Want(&b, "T26"))
	if err != nil {
		t.Fatal(err)
	}
	if p := after.Part(after.Board("D1").Part); p == nil || p.Quantity != 2 || p.Task != "T26" || len(after.Parts) != len(b.Parts)+1 {
		t.Errorf("the board names %v", p)
	}
	if s := supply(t, &after, "board/hardboard 3.0 mm"); len(s.Bare) != 0 || s.Want(&after, "T26") != nil {
		t.Errorf("it is not covered: %v", s.Bare)
	}
	bare := b.Clone()
	for i := range bare.Threads {
		bare.Threads[i].Part = ""
	}
	bare.Cords[0].Part, bare.Foams[0].Part, bare.Boards[0].ClipPart, bare.Deadening[1].Part, bare.Glues[0].Part = "", "", "", "", ""
	for _, s := range trim.Supplies(&bare) {
		after, err := build.ApplyAll(bare, s.Want(&bare, "T26"))
		if err != nil {
			t.Errorf("%s: %v", s.ID(), err)
		} else if s := supply(t, &after, s.ID()); len(s.Bare) != 0 {
			t.Errorf("%s is not covered: %v", s.ID(), s.Bare)
		}
	}
}

// TestPatternOf_CutsAsThePiece: the patterns of the demo, with their pleats and
// allowances, give the shapes that its pieces are cut to.
func TestPatternOf_CutsAsThePiece(t *testing.T) {
	b := morning(t, october)
	for _, p := range b.Patterns {
		flat, err := trim.PatternOf(&b, p, false).Flat()
		if err != nil {
			t.Fatal(err)
		}
		cut, err := flat.Cut(0)
		if err != nil {
			t.Fatal(err)
		}
		want := b.Piece(p.Piece).Cut().Area()
		if got := build.ShapeOf(geom.Polygon{Outer: cut.Line}).Area(); math.Abs(float64(got-want)) > 50 {
			t.Errorf("%s is cut to %d mm², its pattern gives %d", p.Piece, want, got)
		}
	}
}

// TestSewOrder_OfTheDemo: nothing waits for itself, every step stands behind
// what it needs, and a closing seam behind what lies inside it.
func TestSewOrder_OfTheDemo(t *testing.T) {
	b := morning(t, october)
	o, err := trim.SewOrder(&b)
	if err != nil || len(o.Troubles) != 0 {
		t.Fatalf("%v, %v", err, o.Troubles)
	}
	place := map[string]int{}
	for i, s := range o.Steps {
		for _, x := range s.After {
			if x.Step >= i || x.Why == "" {
				t.Errorf("step %d %s stands before step %d, %q", i, s.Name, x.Step, x.Why)
			}
		}
		place[string(s.Act)+" "+s.Of] = i + 1
	}
	for _, pair := range [][2]string{{"sew the pleats T01", "sew Z11"}, {"sew on top Z12", "sew the piping on Z13"}, {"sew Z13", "sew the sleeve Z14"}, {"sew the sleeve Z18", "sew Z17"},
		{"sew the sleeve Z42", "sew Z41"}, {"sew Z41", "wrap Z43"}, {"sew Z51", "sew Z52"}, {"stitch the motif T32", "wrap Z63"}} {
		if place[pair[0]] == 0 || place[pair[1]] == 0 || place[pair[0]] > place[pair[1]] {
			t.Errorf("%s is step %d, %s step %d", pair[0], place[pair[0]], pair[1], place[pair[1]])
		}
	}
	rows := trim.StitchSheet(&b, o)
	if len(rows) != len(o.Steps) {
		t.Fatalf("%d rows of %d steps", len(rows), len(o.Steps))
	}
	r := rows[place["sew on top Z31"]-1]
	if r.Rows != 2 || r.Stitches != 148 || r.Needle != "125–150" || r.Top != 4 || r.Takes == nil || !r.Seen {
		t.Errorf("the rows on top of Z31: %+v", r)
	}
	if r := rows[place["sew the pleats T01"]-1]; r.Rows != 5 || r.Length != 456 || r.Times != 1 || r.Takes == nil || r.Takes.Total.Value < 2*5*0.456 {
		t.Errorf("the pleats of T01: %+v", r)
	}
	sheet := map[string]float64{}
	for _, r := range rows {
		if r.Takes != nil {
			sheet[r.Thread] += r.Takes.Total.Value
		}
	}
	for _, s := range trim.Supplies(&b) {
		if s.Kind == trim.ThreadSupply && math.Abs(sheet[s.Name]-s.Amount.Value) > 0.05 {
			t.Errorf("%s: the steps take %.2f m, the list of supplies says %.2f", s.Name, sheet[s.Name], s.Amount.Value)
		}
	}
}

// TestSewOrder_OfWhatContradicts: facts that are each allowed can still wait
// for each other; that is told, and nothing is lost.
func TestSewOrder_OfWhatContradicts(t *testing.T) {
	b := bag()
	b.Patterns[0].Lines = []build.PatternLine{{Kind: "motif", Points: build.Ring{{50 * mm, 50 * mm}, {90 * mm, 50 * mm}}}}
	b.Seams = append(b.Seams, build.Seam{ID: "Z2", Name: "hem", Kind: build.Hem, A: []build.EdgeOf{{Piece: "A", Edge: "round"}}, Times: 1, Inside: []build.SeamID{"Z1"}})
	o, err := trim.SewOrder(&b)
	if err != nil || len(o.Troubles) != 0 || len(o.Steps) != 3 {
		t.Fatalf("%v, %v, %d steps", err, o.Troubles, len(o.Steps))
	}
	if last := o.Steps[2]; last.Act != trim.SewHem || len(last.After) != 2 {
		t.Errorf("last comes %+v", last)
	}
	b.Seams[1].Kind, b.Seams[1].A[0].Edge = build.Wrapped, "gone"
	if o, err := trim.SewOrder(&b); err != nil || o.Steps[2].Act != trim.WrapEdge {
		t.Errorf("an edge the pattern has not: %+v, %v", o.Steps, err)
	}
}
