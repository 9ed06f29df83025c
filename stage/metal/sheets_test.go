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

// lay works a cut plan out in 400 steps.
func lay(t *testing.T, b *build.Build, gauge unit.Length) (metal.Laid, error) {
	t.Helper()
	o, err := metal.OrderOf(b, gauge, 1, 400)
	if err != nil {
		return metal.Laid{}, err
	}
	return o.Lay(t.Context(), nil, func(metal.Laid) {})
}

func TestLay_AllOfTheDemoIsLaidAndKept(t *testing.T) {
	b := afterBlast(t)
	b.Blanks = append(b.Blanks, metal.Proposed(&b)...)
	for _, gauge := range b.Gauges() {
		s, err := lay(t, &b, gauge)
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
	s, err := lay(t, &b, mm)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Missing) != 3 || s.Plan.Buy != 2 || s.Plan.Like != "M1" || !strings.Contains(s.Plan.Note, "2 more like M1") {
		t.Errorf("missing %v, buy %d like %s: %s", s.Missing, s.Plan.Buy, s.Plan.Like, s.Plan.Note)
	}
	b.Sheets = append(b.Sheets, build.Sheet{ID: "M2", Name: "offcut", Gauge: mm, Width: 240 * mm, Height: 240 * mm, Quantity: 1, Offcut: true})
	b.Blanks[0].Quantity = 3
	s, err = lay(t, &b, mm)
	if err != nil || len(s.Plan.Placed) != 3 || s.Plan.Buy != 0 {
		t.Errorf("with an offcut %d are laid, %d to buy: %v", len(s.Plan.Placed), s.Plan.Buy, err)
	}
	b.Blanks[0].Width, b.Blanks[0].Quantity = 900*mm, 5
	s, err = lay(t, &b, mm)
	if err != nil || len(s.Missing) != 5 || !strings.Contains(s.Plan.Note, "larger than") {
		t.Errorf("of a blank larger than every sheet %d are missing (%s): %v", len(s.Missing), s.Plan.Note, err)
	}
	b.Blanks[0].Gauge = 2 * mm
	if _, err := lay(t, &b, 2*mm); err == nil || !strings.Contains(err.Error(), "no sheet of 2.0 mm") {
		t.Errorf("no sheet of the gauge: %v", err)
	}
}

func TestJudge_ABlankEnteredAnewSpoilsItsPlan(t *testing.T) {
	b := build.Build{
		Sheets: []build.Sheet{{ID: "M1", Name: "plain", Gauge: mm, Width: 500 * mm, Height: 250 * mm, Quantity: 1}},
		Blanks: []build.Blank{{ID: "B1", Name: "cover", Gauge: mm, Width: 220 * mm, Height: 220 * mm, Quantity: 2}},
	}
	s, err := lay(t, &b, mm)
	if err != nil {
		t.Fatal(err)
	}
	b.Blanks[0].Width = 245 * mm
	v, err := metal.Judge(&b, s.Plan)
	if err != nil || len(v.Faults) == 0 || !strings.HasPrefix(v.Faults[0], "B1, copy") {
		t.Errorf("judged %+v: %v", v, err)
	}
}

// offcutRack is a whole sheet that takes everything, and an offcut that takes
// the small blanks.
func offcutRack() build.Build {
	return build.Build{
		Sheets: []build.Sheet{{ID: "M1", Name: "plain", Gauge: mm, Width: 1000 * mm, Height: 500 * mm, Quantity: 2}, {ID: "M2", Name: "offcut", Gauge: mm, Width: 260 * mm, Height: 130 * mm, Quantity: 1, Offcut: true}},
		Blanks: []build.Blank{{ID: "B1", Name: "floor", Gauge: mm, Width: 700 * mm, Height: 400 * mm, Quantity: 1}, {ID: "B2", Name: "patch", Gauge: mm, Width: 110 * mm, Height: 110 * mm, Quantity: 3}},
	}
}

// TestLay_OffcutsFirst: the sheet is begun anyway and would take all; what the
// offcut takes is cut from it all the same.
func TestLay_OffcutsFirst(t *testing.T) {
	b := offcutRack()
	s, err := lay(t, &b, mm)
	on := map[build.SheetID]int{}
	for _, p := range s.Plan.Placed {
		on[p.Sheet]++
	}
	if err != nil || on["M2"] != 2 || on["M1"] != 2 || len(s.Missing) > 0 || s.Plan.Buy > 0 {
		t.Errorf("by sheet %v, missing %v: %v", on, s.Missing, err)
	}
	if v, err := metal.Judge(&b, s.Plan); err != nil || len(v.Faults) > 0 || v.Gap < 3.4 {
		t.Errorf("judged %+v: %v", v, err)
	}
}

// TestLay_AsAJob: it tells as it goes, the same order gives the same plan, and
// cut off it goes on from what it told last, also while it fills the offcuts.
func TestLay_AsAJob(t *testing.T) {
	b := afterBlast(t)
	b.Blanks = append(b.Blanks, metal.Proposed(&b)...)
	o, err := metal.OrderOf(&b, 900*unit.Micrometre, 1, 600)
	if err != nil {
		t.Fatal(err)
	}
	var told [][]byte
	whole, err := metal.Lay(t.Context(), o.Bytes(), nil, func(data []byte) { told = append(told, data) })
	if err != nil || len(told) < 4 {
		t.Fatalf("told %d times: %v", len(told), err)
	}
	if again, err := metal.Lay(t.Context(), o.Bytes(), nil, func([]byte) {}); err != nil || string(again) != string(whole) {
		t.Error("the same order gave another plan")
	}
	for _, from := range [][]byte{told[len(told)/3], told[len(told)-1]} {
		least, _, _ := metal.Tell(from)
		out, err := metal.Lay(t.Context(), o.Bytes(), from, func(data []byte) {
			if steps, _, _ := metal.Tell(data); steps < least {
				t.Errorf("told of %d steps, %d were shown", steps, least)
			}
		})
		l, _ := metal.Read(out)
		if err != nil || len(l.Missing) > 0 || len(l.Resumed) != 1 || l.Steps > 600+400 {
			t.Errorf("gone on from %d steps: missing %v after %d, %v", least, l.Missing, l.Steps, err)
		}
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if out, err := metal.Lay(ctx, o.Bytes(), told[len(told)-1], func([]byte) {}); err != nil {
		t.Error(err)
	} else if l, _ := metal.Read(out); len(l.Missing) > 0 {
		t.Errorf("stopped at once it forgets: %v", l.Missing)
	}
	for _, bad := range []string{"", "{}", `{"gauge_mm": 1, "blanks": [{"id": "B1", "gauge_mm": 1, "quantity": 1}], "sheets": []}`} {
		if _, err := metal.Lay(t.Context(), []byte(bad), nil, func([]byte) {}); err == nil {
			t.Errorf("%q is laid", bad)
		}
	}
}
