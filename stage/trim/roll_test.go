package trim_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"fettle/build"
	"fettle/stage/trim"
	"fettle/unit"
)

const mm = unit.Millimetre

// plaid is a build with a roll of plaid cloth and what is cut from it: a handed
// panel that keeps to the pattern, and strips that lie as they like.
func plaid() build.Build {
	return build.Build{
		Rolls: []build.Roll{{ID: "R1", Material: "plaid", Width: 1400 * mm, Edge: 15 * mm, Gap: 2 * mm, Nap: true, Repeat: 320 * mm, Across: 250 * mm, Begins: build.Spot{40 * mm, 100 * mm}}},
		Pieces: []build.Piece{
			{ID: "T01", Name: "door panel", Width: 800 * mm, Height: 420 * mm, Quantity: 2, Handed: true, Material: "plaid", Grade: "A",
				Shape: build.Shape{Outer: build.Ring{{0, 0}, {800 * mm, 0}, {700 * mm, 420 * mm}, {60 * mm, 400 * mm}}},
				Axis:  build.Axis{Angle: 90, Tolerance: 2}, Match: build.Match{Along: true, Across: true, At: build.Spot{60 * mm, 400 * mm}}},
			{ID: "T02", Name: "strip", Width: 300 * mm, Height: 90 * mm, Quantity: 6, Material: "plaid", Grade: "C"},
		},
	}
}

// lay has a material laid out.
func lay(t *testing.T, b *build.Build, material string, steps int) trim.Laid {
	t.Helper()
	set, err := trim.SetOf(b, trim.Asked{Material: material})
	if err != nil {
		t.Fatal(err)
	}
	order, err := set.Order(1, steps)
	if err != nil {
		t.Fatal(err)
	}
	out, err := trim.Lay(t.Context(), order, nil, func([]byte) {})
	if err != nil {
		t.Fatal(err)
	}
	l, err := trim.Read(out)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// keep keeps a layout as the cut plan of a roll.
func keep(t *testing.T, b *build.Build, material string, placed []build.Placed) {
	t.Helper()
	c := &build.KeepLayout{Layout: build.Layout{ID: "plan", Material: material, Roll: trim.RollOf(b, material).ID, Placed: placed}}
	if err := c.Apply(b); err != nil {
		t.Fatal(err)
	}
}

// TestLay_OnARoll: one way, within the edges, anchors on the pattern, and what
// to buy follows.
func TestLay_OnARoll(t *testing.T) {
	b := plaid()
	rows := trim.NeedOf(&b, "plaid")
	l := lay(t, &b, "plaid", 200)
	if !l.Verified || len(l.Placed) != 8 || !(l.Length > 0 && l.Length < rows.Length.Mm()) {
		t.Errorf("%d laid on %.1f mm, in rows %s", len(l.Placed), l.Length, rows.Length)
	}
	cuts := trim.Cuts(&b, "plaid")
	for _, at := range l.Placed {
		c := trim.CutOf(cuts, at.Piece, at.Copy)
		box := c.Lies(at).Bounds()
		if box.Min.X < 15-1e-3 || box.Min.Y < 15-1e-3 || box.Max.Y > 1385+1e-3 || box.Max.X > l.Length {
			t.Errorf("%s lies at %+v", c.Name(at.Copy), box)
		}
		if at.Piece == "T02" {
			if at.Rotation != 0 {
				t.Errorf("a strip is turned by %g against the nap", at.Rotation)
			}
			continue
		}
		corner := c.Lies(at).Outer[3] // where the pattern begins
		if c.Mirror {
			corner = c.Lies(at).Outer[0]
		}
		if at.Rotation != -90 || math.Abs(math.Remainder(corner.X-40, 320)) > 1e-3 || math.Abs(math.Remainder(corner.Y-100, 250)) > 1e-3 {
			t.Errorf("%s is turned by %g, its corner at %v", c.Name(at.Copy), at.Rotation, corner)
		}
	}
	keep(t, &b, "plaid", l.Placed)
	if n := trim.NeedOf(&b, "plaid"); math.Abs(n.Length.Mm()-l.Length) > 0.01 || !strings.Contains(n.Figure.Formula, "kept cut plan") || n.Metres != int(math.Ceil(1.1*l.Length/1000)) {
		t.Errorf("kept: %s, %d m, %s", n.Length, n.Metres, n.Figure.Formula)
	}
	if v := trim.VerdictOf(&b, "plaid"); !v.Whole() || math.Abs(v.Length-l.Length) > 0.01 {
		t.Errorf("kept: %+v", v)
	}
}

// TestVerdictOf_ARoll: the facts of a roll change, and a kept plan no longer
// holds; what to buy goes back to rows.
func TestVerdictOf_ARoll(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(b *build.Build)
		says   string
	}{
		{"another repeat", func(b *build.Build) { b.Rolls[0].Repeat = 300 * mm }, "roll R1: its anchor"},
		{"narrower", func(b *build.Build) { b.Rolls[0].Width = 800 * mm }, "roll R1: it"},
		{"tighter than it was", func(b *build.Build) { b.Rolls[0].Gap = 40 * mm }, "T02"},
		{"the other way round", func(b *build.Build) { b.Pieces[0].Axis.Angle = 270 }, "it is turned by"},
		{"one more", func(b *build.Build) { b.Pieces[1].Quantity++ }, ""},
	} {
		b := plaid()
		keep(t, &b, "plaid", lay(t, &b, "plaid", 100).Placed)
		c.change(&b)
		said := ""
		for _, one := range trim.Checks(&b) {
			if one.ID == "cut-plan/plaid" {
				said = one.Figure.With
			}
		}
		if !strings.Contains(said, c.says) || c.says == "" && said != "" {
			t.Errorf("%s: %q, want %q", c.name, said, c.says)
		}
		if n := trim.NeedOf(&b, "plaid"); !strings.HasPrefix(n.Figure.Formula, "rows") {
			t.Errorf("%s: bought by %q", c.name, n.Figure.Formula)
		}
	}
}

func TestOrder_RefusesWhatIsWiderThanTheRoll(t *testing.T) {
	b := plaid()
	b.Rolls[0].Width = 500 * mm
	set, err := trim.SetOf(&b, trim.Asked{Material: "plaid"})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := set.Order(1, 9); err == nil || !strings.Contains(err.Error(), "wider than roll R1 between its edges: T01 L, T01 R") {
		t.Errorf("laid on a roll that is too narrow: %v", err)
	}
}

// TestRowsOf_EdgesAndGaps: rows keep what a layout would.
func TestRowsOf_EdgesAndGaps(t *testing.T) {
	b := plaid()
	b.Rolls[0].Repeat = 0
	rows := trim.RowsOf(&b, b.Rolls[0])
	// A panel a row, strips beside them: 15 + 420 + 2 + 420 + 15.
	if rows.Length != 872*mm || !strings.HasSuffix(rows.Words, "0.03 (ends and gaps)") {
		t.Errorf("%s: %s", rows.Length, rows.Words)
	}
	b.Pieces[0].Match = build.Match{}
	keep(t, &b, "plaid", rows.Placed)
	if v := trim.VerdictOf(&b, "plaid"); !v.Whole() {
		t.Errorf("rows do not pass the exact check: %+v", v)
	}
}

// TestLay_ARollGoesOnThoughAllIsLaid: everything lies from the first layout on;
// cut off, what is left of the steps still looks for a shorter one.
func TestLay_ARollGoesOnThoughAllIsLaid(t *testing.T) {
	b := plaid()
	set, err := trim.SetOf(&b, trim.Asked{Material: "plaid"})
	if err != nil {
		t.Fatal(err)
	}
	order, err := set.Order(1, 200)
	if err != nil {
		t.Fatal(err)
	}
	var shown []byte
	ctx, cancel := context.WithCancel(t.Context())
	if _, err := trim.Lay(ctx, order, nil, func(data []byte) {
		if shown == nil {
			shown = data
			cancel()
		}
	}); err != nil {
		t.Fatal(err)
	}
	at, _ := trim.Read(shown)
	out, err := trim.Lay(t.Context(), order, shown, func([]byte) {})
	l, _ := trim.Read(out)
	if err != nil || at.Missing > 0 || l.Length > at.Length || l.Steps < 190 || len(l.Resumed) != 1 {
		t.Errorf("cut off at %.0f mm in %d steps, then %.0f mm in %d, gone on at %v: %v", at.Length, at.Steps, l.Length, l.Steps, l.Resumed, err)
	}
}
