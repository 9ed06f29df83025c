package trim_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/stage/trim"
	"fettle/unit"
)

const cm = 10 * unit.Millimetre

// twoLots is a build with a hide of each of two dye lots: seat panels that are
// seen together, and hidden strips.
func twoLots(panels int) build.Build {
	hide := func(id build.HideID, lot string, w unit.Length) build.Hide {
		return build.Hide{ID: id, Material: "hide", Lot: lot, Usable: 0.7, Area: unit.Rect(w, 100*cm), Outline: build.Box(w, 100*cm)}
	}
	return build.Build{
		Hides: []build.Hide{hide("H1", "red 7", 100*cm), hide("H2", "red 9", 120*cm)},
		Pieces: []build.Piece{
			{ID: "S1", Name: "panel", Width: 40 * cm, Height: 40 * cm, Quantity: panels, Material: "hide", Grade: "A", Face: "seats"},
			{ID: "S2", Name: "strip", Width: 90 * cm, Height: 9 * cm, Quantity: 10, Material: "hide", Grade: "C"},
		},
	}
}

// layOn works a layout out on all hides and reads it.
func layOn(t *testing.T, ctx context.Context, b build.Build, a trim.Asked, from []byte, report func([]byte)) (trim.Laid, trim.Set, []byte) {
	t.Helper()
	a.Material = "hide"
	set, err := trim.SetOf(&b, a)
	if err != nil {
		t.Fatal(err)
	}
	order, err := set.Order(2, 400)
	if err != nil {
		t.Fatal(err)
	}
	out, err := trim.Lay(ctx, order, from, report)
	if err != nil {
		t.Fatal(err)
	}
	l, err := trim.Read(out)
	if err != nil {
		t.Fatal(err)
	}
	return l, set, out
}

func quiet([]byte) {}

// TestLay_WhatIsSeenIsOfOneLot: four panels go on the larger hide with some of
// the strips, the rest of which lie on the other lot; nobody sees them.
func TestLay_WhatIsSeenIsOfOneLot(t *testing.T) {
	l, set, _ := layOn(t, t.Context(), twoLots(4), trim.Asked{}, nil, quiet)
	if l.Missing > 0 || !slices.Equal(l.Lots, []string{"red 9"}) || l.LotSays() != "All that is seen is of dye lot red 9." || !set.Judge(l.Placed).Whole() {
		t.Errorf("%d missing, lots %v, %q, %+v", l.Missing, l.Lots, l.LotSays(), l.Tries)
	}
}

// TestLay_SaysWhereNoLotTakesAllThatIsSeen: six panels ask for both hides. By
// lot it is said what has no place; where lots may differ all are laid.
func TestLay_SaysWhereNoLotTakesAllThatIsSeen(t *testing.T) {
	b := twoLots(6)
	l, set, _ := layOn(t, t.Context(), b, trim.Asked{}, nil, quiet)
	if l.Missing != 2 || l.Short() != "red 9" || len(set.Judge(l.Placed).Faults) > 0 {
		t.Errorf("%d missing, short of %q, %+v", l.Missing, l.Short(), l.Tries)
	}
	for _, say := range []string{"No one dye lot", "on lot red 9 2 pieces are without a place (S1 ", "on lot red 7 2 pieces", "Another hide of lot red 9"} {
		if !strings.Contains(l.LotSays(), say) {
			t.Errorf("%q does not say %q", l.LotSays(), say)
		}
	}
	l, set, _ = layOn(t, t.Context(), b, trim.Asked{Mixed: true}, nil, quiet)
	if l.Missing > 0 || len(l.Lots) != 2 || !l.Mixed || !set.Judge(l.Placed).Whole() {
		t.Errorf("where lots may differ: %d missing, lots %v", l.Missing, l.Lots)
	}
}

// TestLay_GoesOnWithinItsTries: cut off in whichever try, what comes keeps to
// one lot, and tries that are over are not done again.
func TestLay_GoesOnWithinItsTries(t *testing.T) {
	b := twoLots(4)
	for stop := range 4 {
		ctx, cancel := context.WithCancel(t.Context())
		var shown []byte
		layOn(t, ctx, b, trim.Asked{}, nil, func(data []byte) {
			if l, _ := trim.Read(data); shown == nil && len(l.Tries) >= stop {
				shown = data
				cancel()
			}
		})
		if shown == nil {
			continue // it was over before
		}
		at, _ := trim.Read(shown)
		l, set, _ := layOn(t, t.Context(), b, trim.Asked{}, shown, quiet)
		if l.Missing > at.Missing || len(l.Lots) != 1 || len(set.Judge(l.Placed).Faults) > 0 || len(l.Tries) < len(at.Tries) || l.Steps < at.Steps {
			t.Errorf("cut off after %d tries: %d missing, %d were, lots %v, %+v", stop, l.Missing, at.Missing, l.Lots, l.Tries)
		}
	}
}

// TestOrder_WhatStaysPinsItsLot: a panel that is locked decides the lot; two on
// different lots cannot both stay.
func TestOrder_WhatStaysPinsItsLot(t *testing.T) {
	b := twoLots(4)
	b.Layouts = []build.Layout{{ID: "l", Material: "hide", Placed: []build.Placed{
		{Piece: "S1", Copy: 1, Hide: "H1", X: 30, Y: 30, Locked: true}, {Piece: "S2", Hide: "H2", X: 100, Y: 30, Locked: true}}}}
	l, set, _ := layOn(t, t.Context(), b, trim.Asked{Keep: true}, nil, quiet)
	at := (&build.Layout{Placed: l.Placed}).Where("S2", 0)
	if l.Missing > 0 || !slices.Equal(l.Lots, []string{"red 7"}) || at.Hide != "H2" || at.X != 100 || !set.Judge(l.Placed).Whole() {
		t.Errorf("%d missing, lots %v, the locked strip at %+v, %+v", l.Missing, l.Lots, at, l.Tries)
	}
	b.Layouts[0].Placed = append(b.Layouts[0].Placed, build.Placed{Piece: "S1", Copy: 2, Hide: "H2", X: 100, Y: 300, Locked: true})
	set, err := trim.SetOf(&b, trim.Asked{Material: "hide", Keep: true, Mixed: true})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := set.Order(1, 10); err != nil {
		t.Errorf("where lots may differ: %v", err)
	}
	set.Mixed = false
	if _, err := set.Order(1, 10); err == nil || !strings.Contains(err.Error(), "several dye lots") {
		t.Errorf("panels locked on two lots: %v", err)
	}
}

// TestJudge_OfAnotherLot: the lesser part of a face is at fault, unless the lead
// has said that lots may differ; the plan warns of it all the same.
func TestJudge_OfAnotherLot(t *testing.T) {
	b := twoLots(3)
	b.Layouts = []build.Layout{{ID: "l", Material: "hide", Placed: []build.Placed{
		{Piece: "S1", Hide: "H1", X: 30, Y: 30}, {Piece: "S1", Copy: 1, Hide: "H1", X: 500, Y: 30}, {Piece: "S1", Copy: 2, Hide: "H2", X: 30, Y: 30}}}}
	v := trim.VerdictOf(&b, "hide")
	if len(v.Faults) != 1 || v.Faults[0].Name != "S1 3" || !strings.Contains(v.Faults[0].Says, "its hide is of lot red 9, and most of the seats in hide is of lot red 7") {
		t.Errorf("judged %+v", v.Faults)
	}
	b.Layouts[0].Mixed = true
	if v := trim.VerdictOf(&b, "hide"); len(v.Faults) > 0 {
		t.Errorf("lots may differ, and it is judged %+v", v.Faults)
	}
	said := ""
	for _, c := range trim.Checks(&b) {
		if strings.HasPrefix(c.ID, "lot/") {
			said = c.Do
		}
	}
	if !strings.Contains(said, "may differ") {
		t.Errorf("the plan says %q", said)
	}
}
