package metal_test

import (
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/rates"
	"fettle/stage/metal"
	"fettle/takeoff"
	"fettle/unit"
)

// doors is a build with a left and a right door and a skin quoted for the left.
func doors(findings ...build.Finding) *build.Build {
	return &build.Build{
		Currency: unit.Currency{Code: "GBP", Symbol: "£"},
		Panels: []build.Panel{{ID: "P1", Name: "door skin", Side: "L"}, {ID: "P2", Name: "door skin", Side: "R"},
			{ID: "P3", Name: "sill", Side: "R"}, {ID: "P4", Name: "roof", Side: "C"}},
		Parts:    []build.Part{{ID: "Q2", Name: "Door skin L", Quantity: 1, Price: 142_00, Lead: 14, Task: "T1"}, {ID: "Q3", Name: "roof C", Task: "T1"}},
		Tasks:    []build.Task{{ID: "T1", Stage: "metal", Findings: true, Legs: []build.Leg{{Trade: "MW", Hours: unit.Hour}}, Caution: []string{"brace first"}}},
		Findings: findings,
	}
}

func found(f func(*build.Finding)) build.Finding {
	x := build.Finding{ID: "F37", Panels: []build.PanelID{"P2"}, Found: "blast", What: "pinholes", Size: build.Size{Width: 600_000, Height: 40_000},
		Remedy: build.Repair, State: build.Settled, Task: "T1", Work: []build.Leg{{Trade: "MW", Hours: 7 * unit.Hour}}}
	f(&x)
	return x
}

func TestChecks(t *testing.T) {
	same := func(*build.Finding) {}
	tests := []struct {
		what string
		f    func(*build.Finding)
		want []string
	}{
		{"a repair where the other side's part is quoted", same, []string{"choose/F37"}},
		{"on the side whose part is on the list", func(f *build.Finding) { f.Panels = []build.PanelID{"P1"} }, nil},
		{"no part for either side", func(f *build.Finding) { f.Panels = []build.PanelID{"P3"} }, nil},
		{"a panel with no other side", func(f *build.Finding) { f.Panels = []build.PanelID{"P4"} }, nil},
		{"over two panels", func(f *build.Finding) { f.Panels = []build.PanelID{"P2", "P3"} }, nil},
		{"found on arrival", func(f *build.Finding) { f.Found = "arrival" }, nil},
		{"not a repair", func(f *build.Finding) { f.Remedy = build.Replace }, nil},
		{"cut already", func(f *build.Finding) { f.State = build.CutOut }, nil},
		{"not decided", func(f *build.Finding) { f.Remedy, f.State = "", build.Sized }, []string{"undecided/F37"}},
	}
	for _, tt := range tests {
		list := metal.Stage{}.TakeOff(doors(found(tt.f)), rates.Default())
		var got []string
		for _, c := range list.Checks {
			got = append(got, c.ID)
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: checks %v, want %v", tt.what, got, tt.want)
		}
	}
}

func TestChecks_NoChoiceOnceThePartIsOnTheList(t *testing.T) {
	b := doors(found(func(*build.Finding) {}))
	b.Parts = append(b.Parts, build.Part{ID: "Q9", Name: "door skin R", Task: "T1"})
	if got := (metal.Stage{}).TakeOff(b, rates.Default()).Checks; len(got) != 0 {
		t.Errorf("checks = %+v, want none", got)
	}
}

func TestChecks_SayWhatToDo(t *testing.T) {
	list := metal.Stage{}.TakeOff(doors(found(func(*build.Finding) {}), found(func(f *build.Finding) { f.ID, f.Remedy = "F38", "" })), rates.Default())
	want := []takeoff.Check{
		{ID: "undecided/F38", Weight: takeoff.Slipping, Says: "F38 (pinholes) has no remedy yet, so its hours are in no date", Do: "decide: repair, replace or make", Link: "finding/F38"},
		{ID: "choose/F37", Weight: takeoff.Tight, Says: "F37: buy door skin R (14 working days, about £142) or repair in 7 h", Do: "decide today: price and lead are as quoted for Q2 Door skin L", Link: "finding/F37"},
	}
	if len(list.Checks) != len(want) {
		t.Fatalf("%d checks, want %d", len(list.Checks), len(want))
	}
	for i, c := range list.Checks {
		if c.Figure.With == "" || c.Figure.Formula == "" {
			t.Errorf("%s shows no working", c.ID)
		}
		c.Figure = want[i].Figure
		if got, w := c, want[i]; got.ID != w.ID || got.Weight != w.Weight || got.Says != w.Says || got.Do != w.Do || got.Link != w.Link {
			t.Errorf("check = %+v, want %+v", got, w)
		}
	}
}

func TestWork_CarriesTheCautionOfWelding(t *testing.T) {
	list := metal.Stage{}.TakeOff(doors(), rates.Default())
	if len(list.Work) != 1 {
		t.Fatalf("%d lines of work, want 1", len(list.Work))
	}
	w := list.Work[0]
	if len(w.Cautions) != 2 || !strings.HasPrefix(w.Cautions[0], "Welding:") || w.Cautions[1] != "brace first" {
		t.Errorf("cautions = %q, want welding first, then the task's own", w.Cautions)
	}
	if !strings.Contains(w.Figure.Caution, "extinguisher") {
		t.Errorf("the working says %q, want the caution of welding", w.Figure.Caution)
	}
}
