package metal_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/stage/metal"
	"fettle/unit"
)

const mm = unit.Millimetre

// afterBlast is the demo build on the day after the blast.
func afterBlast(t *testing.T) build.Build {
	t.Helper()
	file, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	b, err := scenario.Replay(file, unit.Day(2026, time.October, 8))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestProposed_OnePatchAFindingWithTwoSizes(t *testing.T) {
	b := afterBlast(t)
	list := metal.Proposed(&b)
	if len(list) < 10 {
		t.Fatalf("%d blanks are proposed", len(list))
	}
	for _, p := range list {
		f := b.Finding(p.Finding)
		if f == nil || f.Size.Height == 0 || p.Gauge != b.Panel(f.Panels[0]).Gauge || p.Over != 12*mm {
			t.Errorf("blank %+v for %+v", p, f)
		}
	}
	b.Blanks = append(b.Blanks, list[0])
	if again := metal.Proposed(&b); len(again) != len(list)-1 {
		t.Errorf("%d of %d are still proposed after one was entered", len(again), len(list))
	}
}

func TestLay_AllOfTheDemoIsLaidAndKept(t *testing.T) {
	b := afterBlast(t)
	b.Blanks = append(b.Blanks, metal.Proposed(&b)...)
	for _, gauge := range b.Gauges() {
		s, err := metal.Lay(context.Background(), &b, gauge, 1)
		if err != nil && (gauge == 900*unit.Micrometre || gauge == 1200*unit.Micrometre) {
			t.Fatal(err)
		}
		if err != nil {
			if !strings.Contains(err.Error(), "no sheet of") {
				t.Errorf("%s: %v", gauge, err)
			}
			continue
		}
		wanted := 0
		for _, p := range metal.Wanted(&b, gauge) {
			wanted += p.Quantity
		}
		if len(s.Missing) > 0 || len(s.Plan.Placed) != wanted || s.Gap < 3.4 {
			t.Errorf("%s: %d of %d laid, missing %v (%s), gap %.2f mm", gauge, len(s.Plan.Placed), wanted, s.Missing, s.Plan.Note, s.Gap)
		}
		if err := (&build.KeepSheetPlan{Plan: s.Plan}).Apply(&b); err != nil {
			t.Error(err)
		}
		if v, err := metal.Judge(&b, s.Plan); err != nil || len(v.Faults) > 0 || v.Gap != s.Gap {
			t.Errorf("%s: kept, it is judged %+v: %v", gauge, v, err)
		}
	}
}

func TestLay_SaysWhatIsShort(t *testing.T) {
	b := build.Build{
		Sheets: []build.Sheet{{ID: "M1", Name: "plain", Gauge: mm, Width: 500 * mm, Height: 250 * mm, Quantity: 1}},
		Blanks: []build.Blank{{ID: "B1", Name: "cover", Gauge: mm, Width: 220 * mm, Height: 220 * mm, Quantity: 5}},
	}
	s, err := metal.Lay(context.Background(), &b, mm, 1)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Missing) != 3 || s.Buy != 2 || s.BuyLike != "M1" || !strings.Contains(s.Plan.Note, "2 more like M1") {
		t.Errorf("missing %v, buy %d like %s: %s", s.Missing, s.Buy, s.BuyLike, s.Plan.Note)
	}
	b.Sheets = append(b.Sheets, build.Sheet{ID: "M2", Name: "offcut", Gauge: mm, Width: 240 * mm, Height: 240 * mm, Quantity: 1, Offcut: true})
	b.Blanks[0].Quantity = 3
	s, err = metal.Lay(context.Background(), &b, mm, 1)
	if err != nil || len(s.Plan.Placed) != 3 || s.Buy != 0 {
		t.Errorf("with an offcut %d are laid, %d to buy: %v", len(s.Plan.Placed), s.Buy, err)
	}
	b.Blanks[0].Width, b.Blanks[0].Quantity = 900*mm, 5
	s, err = metal.Lay(context.Background(), &b, mm, 1)
	if err != nil || len(s.Missing) != 5 || !strings.Contains(s.Plan.Note, "larger than") {
		t.Errorf("of a blank larger than every sheet %d are missing (%s): %v", len(s.Missing), s.Plan.Note, err)
	}
	b.Blanks[0].Gauge = 2 * mm
	if _, err := metal.Lay(context.Background(), &b, 2*mm, 1); err == nil || !strings.Contains(err.Error(), "no sheet of 2.0 mm") {
		t.Errorf("no sheet of the gauge: %v", err)
	}
}

func TestJudge_ABlankEnteredAnewSpoilsItsPlan(t *testing.T) {
	b := build.Build{
		Sheets: []build.Sheet{{ID: "M1", Name: "plain", Gauge: mm, Width: 500 * mm, Height: 250 * mm, Quantity: 1}},
		Blanks: []build.Blank{{ID: "B1", Name: "cover", Gauge: mm, Width: 220 * mm, Height: 220 * mm, Quantity: 2}},
	}
	s, err := metal.Lay(context.Background(), &b, mm, 1)
	if err != nil {
		t.Fatal(err)
	}
	b.Blanks[0].Width = 245 * mm
	v, err := metal.Judge(&b, s.Plan)
	if err != nil || len(v.Faults) == 0 || !strings.HasPrefix(v.Faults[0], "B1, copy") {
		t.Errorf("judged %+v: %v", v, err)
	}
}
