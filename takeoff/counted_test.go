package takeoff_test

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/takeoff"
	"fettle/unit"
)

// TestPlanned_ByCircuits: the hours of the loom are for as many circuits as
// there are, once somebody said how many they were planned for.
func TestPlanned_ByCircuits(t *testing.T) {
	loom := func(said, circuits int, change func(*build.Task)) *build.Build {
		b := &build.Build{
			Tasks:    []build.Task{{ID: "T1", Name: "board", Stage: "loom", Legs: []build.Leg{{Trade: "WA", Hours: 8 * unit.Hour}, {Trade: "MW", Hours: 2 * unit.Hour}}}},
			Circuits: make([]build.Circuit, circuits),
		}
		b.Loom.Settings.HoursFor = said
		change(&b.Tasks[0])
		return b
	}
	as := func(*build.Task) {}
	for _, tt := range []struct {
		what  string
		b     *build.Build
		want  string
		with  string
		input string
	}{
		{"nobody counted", loom(0, 5, as), "WA 8 h, MW 2 h", "8 h planned, 0 h booked", "a circuit more adds none"},
		{"as many as were planned for", loom(4, 4, as), "WA 8 h, MW 2 h", "8 h × 4 ÷ 4; 8 h planned", "for 4 circuits, 2 h each"},
		{"one more", loom(4, 5, as), "WA 10 h, MW 2.5 h", "8 h × 5 ÷ 4; 10 h planned", "for 4 circuits, 2 h each"},
		{"one less", loom(4, 3, as), "WA 6 h, MW 1.5 h", "8 h × 3 ÷ 4; 6 h planned", "for 4 circuits, 2 h each"},
		{"none yet", loom(4, 0, as), "WA 8 h, MW 2 h", "8 h planned, 0 h booked", ""},
		{"finished", loom(4, 5, func(t *build.Task) { t.State = build.Finished }), "WA 8 h, MW 2 h", "8 h planned", ""},
		{"of another stage", loom(4, 5, func(t *build.Task) { t.Stage = "trim" }), "WA 8 h, MW 2 h", "8 h planned, 0 h booked", ""},
	} {
		if got := planned(tt.b, "T1"); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.what, got, tt.want)
		}
		f := takeoff.Of(tt.b, tt.b.Tasks[0].Stage).Work[0].Figure
		if notes := f.Inputs[len(f.Inputs)-1].Note + f.Inputs[max(len(f.Inputs)-2, 0)].Note; !strings.HasPrefix(f.With, tt.with) || !strings.Contains(notes, tt.input) {
			t.Errorf("%s: working %q, %+v", tt.what, f.With, f.Inputs)
		}
	}
}

// TestPlanned_OwedByFinishedTasks: a circuit that comes after the board is
// finished is made all the same, in the next task of the loom.
func TestPlanned_OwedByFinishedTasks(t *testing.T) {
	b := &build.Build{
		Tasks: []build.Task{
			{ID: "T2", Name: "in", Stage: "loom", Legs: []build.Leg{{Trade: "WA", Hours: 4 * unit.Hour}}},
			{ID: "T1", Name: "board", Stage: "loom", Legs: []build.Leg{{Trade: "WA", Hours: 8 * unit.Hour}, {Trade: "MW", Hours: 2 * unit.Hour}}},
			{ID: "T3", Name: "tests", Stage: "loom", Legs: []build.Leg{{Trade: "WA", Hours: 4 * unit.Hour}}},
		},
		Circuits: make([]build.Circuit, 4),
	}
	b.Loom.Settings.HoursFor = 4
	if err := (&build.EndTask{Task: "T1", Day: day}).Apply(b); err != nil {
		t.Fatal(err)
	}
	if got := planned(b, "T2"); got != "WA 4 h" || len(takeoff.Owed(b)) != 0 {
		t.Errorf("as many as it was finished with: %s", got)
	}
	b.Circuits = make([]build.Circuit, 6)
	if got := planned(b, "T2") + "; " + planned(b, "T3"); got != "WA 10 h, MW 1 h; WA 6 h" {
		t.Errorf("two more: %s", got)
	}
	if f := takeoff.Of(b, "loom").Work[0].Figure; !strings.HasPrefix(f.With, "4 h × 6 ÷ 4 + 4 h; 10 h planned") {
		t.Errorf("working %q", f.With)
	}
	b.Circuits = b.Circuits[:3]
	if got := planned(b, "T2"); got != "WA 3 h" {
		t.Errorf("one less than it was finished with: %s", got)
	}
}
