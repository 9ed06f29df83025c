package takeoff_test

import (
	"testing"

	"fettle/build"
	"fettle/takeoff"
)

func TestWants(t *testing.T) {
	b := shop()
	b.Parts = []build.Part{
		{ID: "Q1", Name: "hinge", Quantity: 3, Price: 5_50, Lead: 4, Task: "T3"},
		{ID: "Q2", Name: "lens", Quantity: 1, Price: 9_00, Task: "T3", AtEnd: true},
		{ID: "Q3", Name: "patch", Quantity: 1, Task: "T2", Because: []build.FindingID{"F1"}},
	}
	wants := append(takeoff.Of(b, "metal").Wants, takeoff.Of(b, "assembly").Wants...)
	tests := []struct {
		part  build.PartID
		task  build.TaskID
		atEnd bool
		with  string
	}{
		{"Q3", "T2", true, "1 × £0 = £0"},
		{"Q1", "T3", false, "3 × £5.50 = £16.50"},
		{"Q2", "T3", true, "1 × £9 = £9"},
	}
	if len(wants) != len(tests) {
		t.Fatalf("%d wants, want %d", len(wants), len(tests))
	}
	for i, tt := range tests {
		w := wants[i]
		if w.Part != tt.part || w.Task != tt.task || w.AtEnd != tt.atEnd || w.Figure.With != tt.with {
			t.Errorf("want %+v, expected %+v", w, tt)
		}
	}
	if in := wants[0].Figure.Inputs; in[len(in)-1].Link != "finding/F1" {
		t.Errorf("inputs of the patch = %+v, want the finding last", in)
	}
}

func TestLoads(t *testing.T) {
	b := shop()
	b.Outwork = []build.Outwork{{ID: "O1", What: "plating", Pieces: 23, P90: 45, Cost: 300_00}}
	b.Tasks = append(b.Tasks, build.Task{ID: "O1", Stage: "away", Outwork: "O1", Wait: 32}, build.Task{ID: "T9", Stage: "away"})
	for _, tt := range []struct {
		likely, days int
		with, note   string
	}{
		{0, 32, "32 working days likely; nine loads in ten within 45", "quoted by the outside shop"},
		{40, 40, "40 working days likely; nine loads in ten within 45", "as last heard"},
		{65, 65, "65 working days likely; nine loads in ten within 65", "as last heard"},
	} {
		b.Outwork[0].Likely = tt.likely
		list := takeoff.Of(b, "away")
		if len(list.Loads) != 1 {
			t.Fatalf("%d loads, want 1", len(list.Loads))
		}
		l := list.Loads[0]
		if l.Load != "O1" || l.Task != "O1" || l.Days != tt.days || l.Figure.With != tt.with || l.Figure.Inputs[0].Note != tt.note {
			t.Errorf("likely %d: load %+v, want %d days, %q", tt.likely, l, tt.days, tt.with)
		}
	}
}

func TestOf_AnotherStageTakesNothing(t *testing.T) {
	if list := takeoff.Of(shop(), "loom"); len(list.Work)+len(list.Wants)+len(list.Loads)+len(list.Checks) != 0 || list.Stage != "loom" {
		t.Errorf("take-off of a stage without tasks = %+v, want only its name", list)
	}
}
