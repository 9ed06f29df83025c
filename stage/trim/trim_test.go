package trim_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"fettle/build"
	"fettle/geom"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/stage/trim"
	"fettle/unit"
)

const tan = "tan leather"

// morning is the demo build on a day.
func morning(tb testing.TB, day unit.Date) build.Build {
	tb.Helper()
	file, err := demo.Pedlar()
	if err != nil {
		tb.Fatal(err)
	}
	b, err := scenario.Replay(file, day)
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

// october is when the hides are drawn and a cut plan is kept.
var october = unit.Day(2026, 10, 12)

// TestNeeds_OfTheDemo: sums by hand from the list of pieces.
func TestNeeds_OfTheDemo(t *testing.T) {
	b := morning(t, october)
	got := map[string]trim.Need{}
	for _, n := range trim.Needs(&b) {
		got[n.Material] = n
	}
	n := got[tan]
	if n.Net != 6_407_620 || n.Pieces != 50 || n.Usable != 9_870_000 || n.Have != 3 || n.Buy != 0 {
		t.Errorf("tan: %d mm² of %d pieces, usable %d, %d hides, %d to buy", n.Net, n.Pieces, n.Usable, n.Have, n.Buy)
	}
	for i, want := range []unit.Area{2_746_420, 3_094_200, 567_000} {
		if n.Grades[i].Area != want {
			t.Errorf("grade %s: %d mm², want %d", n.Grades[i].Grade, n.Grades[i].Area, want)
		}
	}
	if !strings.Contains(n.Figure.With, "2 would be 97 % used, no margin") {
		t.Errorf("working: %s", n.Figure.With)
	}
	if e := got["embossed tan leather"]; e.Net != 448_000 || e.Have != 2 || e.Buy != 0 {
		t.Errorf("embossed: %+v", e)
	}
	for material, want := range map[string]struct {
		length      unit.Length
		metres, buy int
	}{"oatmeal headliner cloth": {2900 * unit.Millimetre, 4, 0}, "wrack carpet": {1450 * unit.Millimetre, 2, 0}, "quilted vinyl": {1700 * unit.Millimetre, 2, 2}} {
		if n := got[material]; n.Length != want.length || n.Metres != want.metres || n.Buy != want.buy {
			t.Errorf("%s: %s, %d m, %d to buy", material, n.Length, n.Metres, n.Buy)
		}
	}
}

// TestCuts_HandsAreTwoPatterns: no leather is turned over, and both hands come
// from one hide.
func TestCuts_HandsAreTwoPatterns(t *testing.T) {
	b := morning(t, october)
	cuts := trim.Cuts(&b, tan)
	left, right := trim.CutOf(cuts, "T05", 0), trim.CutOf(cuts, "T05", 1)
	if left.ID != "T05 L" || right.ID != "T05 R" || left.Mirror || !right.Mirror || left.Name(0) != "T05 L" {
		t.Fatalf("%s and %s", left.ID, right.ID)
	}
	if math.Abs(left.Shape.Area()-right.Shape.Area()) > 1e-6 || (geom.RingArea(left.Shape.Outer) > 0) != (geom.RingArea(right.Shape.Outer) > 0) {
		t.Error("the hands differ in more than their side")
	}
	for _, q := range left.Shape.Outer {
		if right.Shape.Depth(geom.Point{X: 560 - q.X, Y: q.Y}) < -1e-9 {
			t.Errorf("corner %v has no mirror image", q)
		}
	}
	if c := trim.CutOf(cuts, "T13", 3); c.Name(3) != "T13 4" || c.Mirror {
		t.Errorf("the fourth piping strip is %s", c.Name(3))
	}
}

// faultOf lays one piece of the kept plan elsewhere and says what is wrong.
func faultOf(t *testing.T, change func(b *build.Build, l *build.Layout)) trim.Verdict {
	t.Helper()
	b := morning(t, october)
	l := b.LayoutOf(tan)
	l.Placed = append([]build.Placed(nil), l.Placed...)
	change(&b, l)
	return trim.VerdictOf(&b, tan)
}

func TestJudge_NamesEveryCopyThatCannotBeCut(t *testing.T) {
	if v := faultOf(t, func(*build.Build, *build.Layout) {}); !v.Whole() || v.Gap < 1.999 || v.Nearest == "" {
		t.Fatalf("the kept plan: %+v", v)
	}
	for what, tt := range map[string]struct {
		change func(b *build.Build, l *build.Layout)
		want   string
	}{
		"moved off the hide": {func(_ *build.Build, l *build.Layout) { l.Where("T21", 0).X += 3000 }, "T21"},
		"turned across the stretch": {func(_ *build.Build, l *build.Layout) {
			l.Placed = []build.Placed{*l.Where("T21", 0)}
			l.Placed[0].Rotation, l.Placed[0].X, l.Placed[0].Y = 90, 1400, 500
		}, "T21"},
		"on a hide that is refused": {func(b *build.Build, l *build.Layout) {
			b.Hide("H3").Refused = true
			l.Placed = []build.Placed{*l.Where("T21", 0)}
		}, "T21"},
		"two in one place": {func(_ *build.Build, l *build.Layout) {
			*l.Where("T11", 0) = build.Placed{Piece: "T11", Hide: l.Where("T05", 0).Hide, X: l.Where("T05", 0).X, Y: l.Where("T05", 0).Y, Rotation: l.Where("T05", 0).Rotation}
			l.Placed = []build.Placed{*l.Where("T05", 0), *l.Where("T11", 0)}
		}, "T11 L"},
		"a mark under it": {func(b *build.Build, l *build.Layout) {
			at := l.Where("T21", 0)
			middle := build.Spot{unit.Length((at.X - 600) * 1000), unit.Length((at.Y - 100) * 1000)}
			mark := build.Shape{Outer: build.Ring{middle, {middle[0] + 20_000, middle[1]}, {middle[0], middle[1] + 20_000}}}
			b.Hide("H3").Marks = append(b.Hide("H3").Marks, build.Mark{ID: "K9", Kind: "hole", Shape: mark})
		}, "T21"},
	} {
		v := faultOf(t, tt.change)
		if len(v.Faults) != 1 || v.Faults[0].Name != tt.want || v.Faults[0].Says == "" {
			t.Errorf("%s: %+v, want one fault of %s", what, v.Faults, tt.want)
		}
	}
	if v := faultOf(t, func(_ *build.Build, l *build.Layout) { l.Placed = l.Placed[3:] }); len(v.Missing) != 3 || len(v.Faults) > 1 {
		t.Errorf("three taken off: %+v", v)
	}
}

// TestChecks_OfAChangedBuild: what the plan says of trim.
func TestChecks_OfAChangedBuild(t *testing.T) {
	for what, tt := range map[string]struct {
		change func(b *build.Build)
		id     string
		says   string
	}{
		"as it is":                    {func(*build.Build) {}, "material/quilted vinyl", "2 m of quilted vinyl are needed and none is on the list"},
		"one hide refused":            {func(b *build.Build) { b.Hide("H3").Refused = true }, "material/tan leather", "take 97 % of what 2 hides can give: no margin for a mark"},
		"two refused":                 {func(b *build.Build) { b.Hide("H3").Refused, b.Hide("H2").Refused = true, true }, "material/tan leather", "take 195 % of what 1 hide can give"},
		"another lot":                 {func(b *build.Build) { b.Hide("H3").Lot = "BT-2311" }, "lot/seats in tan leather", "the seats in tan leather are cut from 2 dye lots"},
		"a plan that no longer holds": {func(b *build.Build) { b.Hide("H3").Refused = true }, "cut-plan/tan leather", "cannot be cut where they lie"},
		"drawn too large":             {func(b *build.Build) { b.Hide("H1").Area = 4_000_000 }, "scale/H1", "hide H1 is drawn as 4.70 m², the tannery measured 4.00 m²"},
		"too little cloth":            {func(b *build.Build) { b.Part("Q55").Quantity = 3 }, "material/oatmeal headliner cloth", "4 m of oatmeal headliner cloth are needed and 3 m are on the list"},
	} {
		b := morning(t, october)
		tt.change(&b)
		said := ""
		for _, c := range trim.Checks(&b) {
			if c.ID == tt.id {
				said = c.Says
			}
		}
		if !strings.Contains(said, tt.says) {
			t.Errorf("%s: %q, want %q", what, said, tt.says)
		}
	}
}

// TestRowsOf_NapAndRepeat: all one way, within the width, each row on a repeat.
func TestRowsOf_NapAndRepeat(t *testing.T) {
	b := morning(t, october)
	for _, r := range b.Rolls {
		r.Repeat = 250 * unit.Millimetre
		rows := trim.RowsOf(&b, r)
		if rows.Length%r.Repeat != 0 || len(rows.Over) > 0 {
			t.Errorf("%s: %s long, too wide %v", r.Material, rows.Length, rows.Over)
		}
		cuts := trim.Cuts(&b, r.Material)
		for _, p := range rows.Placed {
			box := trim.CutOf(cuts, p.Piece, p.Copy).Lies(p).Bounds()
			if box.Min.X < -1e-9 || box.Min.Y < -1e-9 || box.Max.Y > r.Width.Mm()+1e-9 || box.Max.X > rows.Length.Mm()+1e-9 {
				t.Errorf("%s lies at %+v", p.Piece, box)
			}
		}
	}
	r := b.Rolls[0]
	r.Width = 1400 * unit.Millimetre
	if rows := trim.RowsOf(&b, r); len(rows.Over) != 2 {
		t.Errorf("too wide for a roll of 1.4 m: %v", rows.Over)
	}
}

// TestLay_SameOrderSameLayout: what a job keeps is what the same order gives.
func TestLay_SameOrderSameLayout(t *testing.T) {
	b := morning(t, october)
	set, err := trim.SetOf(&b, trim.Asked{Material: tan})
	if err != nil {
		t.Fatal(err)
	}
	order, err := set.Order(7, 300)
	if err != nil {
		t.Fatal(err)
	}
	var first []byte
	for range 2 {
		reports := 0
		out, err := trim.Lay(t.Context(), order, nil, func(data []byte) {
			if l, err := trim.Read(data); err != nil || l.Done || len(set.Judge(l.Placed).Faults) > 0 && reports == 0 {
				t.Errorf("report %d: %+v, %v", reports, l, err)
			}
			reports++
		})
		if err != nil || reports == 0 {
			t.Fatalf("%d reports, %v", reports, err)
		}
		if first != nil && string(out) != string(first) {
			t.Error("the same order gave another layout")
		}
		first = out
	}
	l, err := trim.Read(first)
	if err != nil || !l.Done || !l.Verified || l.Missing != 0 || len(l.Placed) != 50 || !set.Judge(l.Placed).Whole() {
		t.Errorf("laid %d, missing %d, verified %v, %v", len(l.Placed), l.Missing, l.Verified, err)
	}
}

// TestLay_GoesOnFromItsBest: cut off, it never tells of less than was shown,
// spends only what is left, and says where it was cut off.
func TestLay_GoesOnFromItsBest(t *testing.T) {
	b := morning(t, october)
	set, err := trim.SetOf(&b, trim.Asked{Material: tan})
	if err != nil {
		t.Fatal(err)
	}
	order, err := set.Order(7, 300)
	if err != nil {
		t.Fatal(err)
	}
	var shown []byte
	ctx, cancel := context.WithCancel(t.Context())
	if _, err := trim.Lay(ctx, order, nil, func(data []byte) {
		if l, _ := trim.Read(data); shown == nil && len(l.Placed) > 20 {
			shown = data
			cancel()
		}
	}); err != nil || shown == nil {
		t.Fatal("nothing was shown", err)
	}
	at, _ := trim.Read(shown)
	data, err := trim.Lay(t.Context(), order, shown, func(data []byte) {
		if l, _ := trim.Read(data); l.Steps < at.Steps || len(l.Placed) < len(at.Placed) {
			t.Errorf("told of %d laid in %d steps, %d in %d were shown", len(l.Placed), l.Steps, len(at.Placed), at.Steps)
		}
	})
	l, _ := trim.Read(data)
	if err != nil || l.Missing > 0 || !l.Verified || len(l.Resumed) != 1 || l.Resumed[0] != at.Steps || l.Steps > 300+200 || !set.Judge(l.Placed).Whole() {
		t.Errorf("%d missing after %d steps, gone on at %v, want %d: %v", l.Missing, l.Steps, l.Resumed, at.Steps, err)
	}
	if _, _, figure := trim.Tell(data); !strings.Contains(figure, "gone on from its best") {
		t.Errorf("its box says %q", figure)
	}
	ctx, cancel = context.WithCancel(t.Context())
	cancel()
	out, err := trim.Lay(ctx, order, shown, func([]byte) {})
	if l, _ := trim.Read(out); err != nil || len(l.Placed) < len(at.Placed) {
		t.Errorf("stopped at once it forgets: %d laid, %v", len(l.Placed), err)
	}
}

func TestLay_RefusesABrokenOrder(t *testing.T) {
	for _, bad := range []string{"", "{}", `{"problem": {"form": "fettle nest"}}`, `{"steps": 1, "hides": ["H1"], "problem": {"form":"fettle nest","name":"x","kind":"bins","clearance":0,"kerf":0,"materials":[{"id":"a","outline":[[0,0],[9,0],[9,9]]}],"pieces":[{"id":"p","outline":[[0,0],[1,0],[1,1]]}]}}`} {
		if _, err := trim.Lay(t.Context(), []byte(bad), nil, func([]byte) {}); err == nil {
			t.Errorf("%.40s is laid", bad)
		}
	}
	if _, err := trim.SetOf(&build.Build{}, trim.Asked{Material: tan}); err == nil {
		t.Error("a set of nothing")
	}
	b := morning(t, october)
	if _, err := trim.SetOf(&b, trim.Asked{Material: "embossed tan leather"}); err == nil || !strings.Contains(err.Error(), "drawn") {
		t.Errorf("hides that nobody has drawn: %v", err)
	}
}

func TestLossOf_WhatMustMove(t *testing.T) {
	b := morning(t, october)
	on := 0
	for _, p := range b.LayoutOf(tan).Placed {
		if p.Hide == "H3" {
			on++
		}
	}
	loss := trim.LossOf(&b, "H3")
	if len(loss.Moves) != on || on == 0 || len(loss.Rest) != 2 {
		t.Errorf("%d move, want %d; the rest %v", len(loss.Moves), on, loss.Rest)
	}
	if loss := trim.LossOf(&b, "H9"); len(loss.Moves) != 0 {
		t.Errorf("no hide: %+v", loss)
	}
}
