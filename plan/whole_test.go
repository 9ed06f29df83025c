package plan

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"reflect"
	"runtime"
	"slices"
	"testing"

	"fettle/build"
	"fettle/fault"
	"fettle/figure"
	"fettle/rates"
	"fettle/unit"
)

// figures calls see with every figure in a value, and where it lies.
func figures(v reflect.Value, where string, see func(string, figure.Figure)) {
	if v.Type() == reflect.TypeFor[figure.Figure]() {
		see(where, v.Interface().(figure.Figure))
		return
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			figures(v.Elem(), where, see)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				figures(v.Field(i), where+"."+v.Type().Field(i).Name, see)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			figures(v.Index(i), fmt.Sprintf("%s[%d]", where, i), see)
		}
	}
}

func TestPlan_EveryFigureShowsItsWorking(t *testing.T) {
	for _, s := range stories(t) {
		seen := 0
		figures(reflect.ValueOf(made(t, &s.b, s.now)), "", func(where string, f figure.Figure) {
			seen++
			if f.Name == "" || f.Text == "" || f.Formula == "" || f.With == "" {
				t.Errorf("%s: plan%s shows %+v", s.name, where, f)
			}
			for _, in := range f.Inputs {
				if in.Name == "" || in.Value == "" || in.Source == "" {
					t.Errorf("%s: plan%s has an input %+v", s.name, where, in)
				}
			}
		})
		if least := 8 + len(s.b.Parts) + len(s.b.Outwork) + len(s.b.Products); seen < least {
			t.Errorf("%s: %d figures, want at least %d", s.name, seen, least)
		}
	}
}

func TestMake_SameBytes(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for _, s := range stories(t) {
		var first []byte
		for i := range 5 {
			runtime.GOMAXPROCS(1 + i%2)
			p, err := Make(context.Background(), &s.b, rates.Learn(s.b), Options{Now: s.now, Runs: 100, Seed: 7})
			if err != nil {
				t.Fatal(err)
			}
			data, err := json.Marshal(p)
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = data
			}
			if !bytes.Equal(first, data) {
				t.Fatalf("%s: plan %d differs from the first", s.name, i+1)
			}
		}
	}
}

func TestMake_LeavesTheFactsAlone(t *testing.T) {
	for _, s := range stories(t) {
		before, _ := json.Marshal(s.b)
		p := made(t, &s.b, s.now)
		if _, err := WaysOut(context.Background(), &s.b, rates.Default(), p, Options{Now: s.now, Runs: 10}); err != nil {
			t.Fatal(err)
		}
		if after, _ := json.Marshal(s.b); !bytes.Equal(before, after) {
			t.Errorf("%s: planning altered the build", s.name)
		}
	}
}

func TestMake_Interrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Make(ctx, small(), rates.Default(), Options{Now: monday.At(8, 0)}); fault.KindOf(err) != fault.Interrupted {
		t.Errorf("with an ended context: %v, want interrupted", err)
	}
}

// odd are builds at the edge of sense, on Monday 2 March at 08:00: the dates
// they have, the word for their odds and how the plan stands.
func TestMake_OddBuilds(t *testing.T) {
	finished := func(day unit.Date) func(*build.Build) {
		return func(b *build.Build) {
			for i := range b.Tasks {
				b.Tasks[i].State, b.Tasks[i].Began, b.Tasks[i].Ended = build.Finished, day, day
			}
		}
	}
	tests := []struct {
		what        string
		do          func(*build.Build)
		half, plain unit.Date
		word        string
		status      string
	}{
		{"as it is", func(*build.Build) {}, monday + 2, monday + 2, "safe", "proved best"},
		{"no tasks", func(b *build.Build) { b.Tasks = nil }, monday, monday, "safe", "proved best"},
		{"no tasks, promised long ago", func(b *build.Build) { b.Tasks, b.Promise.Ready = nil, monday-1 }, monday, monday, "lost", "proved best"},
		{"all finished in time", finished(monday - 3), monday - 3, monday - 3, "safe", "proved best"},
		{"all finished too late", func(b *build.Build) { finished(monday - 3)(b); b.Promise.Ready = monday - 4 }, monday - 3, monday - 3, "lost", "proved best"},
		{"promised in the past", func(b *build.Build) { b.Promise.Ready = monday - 5 }, monday + 2, monday + 2, "lost", "proved best"},
		{"nothing left but not ended", func(b *build.Build) {
			for i := range b.Tasks {
				b.Tasks[i].State, b.Tasks[i].Began, b.Tasks[i].LeftSaid = build.Begun, monday-4, true
			}
		}, monday, monday, "safe", "proved best"},
		{"Mo is away for ever", func(b *build.Build) { b.Absences = []build.Absence{{Person: "mo", First: monday, Last: monday + 1000}} }, 0, 0, "lost", "does not fit the calendars"},
		{"shut for ever", func(b *build.Build) { b.Closures = []build.Closure{{First: monday, Last: monday + 1000}} }, 0, 0, "lost", "does not fit the calendars"},
		{"more work than fits", func(b *build.Build) { b.Tasks[0].Legs[0].Hours = 9_000 * h }, 0, 0, "lost", "does not fit the calendars"},
		{"a wait without end", func(b *build.Build) { b.Tasks[1].Wait = 1000 }, 0, 0, "lost", "does not fit the calendars"},
		{"a part that takes too long", func(b *build.Build) {
			b.Parts = []build.Part{{ID: "Q1", Name: "hinge", Quantity: 1, Price: 1, Lead: 1000, Task: "T2", State: build.Wanted}}
		}, 0, 0, "lost", "does not fit the calendars"},
	}
	for _, tt := range tests {
		b := small()
		tt.do(b)
		b.Costs = []build.CostLine{{ID: "C1", Name: "paint", Amount: 50_00, Task: "T2"}}
		if len(b.Tasks) == 0 {
			b.Costs = nil
		}
		p, err := Make(context.Background(), b, rates.Default(), Options{Now: monday.At(8, 0), Runs: 50})
		if err != nil {
			t.Errorf("%s: %v", tt.what, err)
			continue
		}
		if p.Dates.P50 != tt.half || p.Dates.P90 != tt.half || p.Dates.Plain != tt.plain || p.Odds.Word != tt.word || p.Status != tt.status {
			t.Errorf("%s: half by %s, plain %s, %s, %q, want %s, %s, %s, %q", tt.what,
				p.Dates.P50, p.Dates.Plain, p.Odds.Word, p.Status, tt.half, tt.plain, tt.word, tt.status)
		}
		balance(t, tt.what, b, p.Money)
		for _, c := range p.Odds.Curve {
			if c.Chance < 0 || c.Chance > 1 || c.Day == 0 {
				t.Errorf("%s: curve %+v", tt.what, p.Odds.Curve)
			}
		}
		figures(reflect.ValueOf(p), "", func(where string, f figure.Figure) {
			if f.Name == "" || f.Text == "" || f.Formula == "" || f.With == "" {
				t.Errorf("%s: plan%s shows %+v", tt.what, where, f)
			}
		})
		if _, err := WaysOut(context.Background(), b, rates.Default(), p, Options{Now: monday.At(8, 0), Runs: 5}); err != nil {
			t.Errorf("%s: ways out: %v", tt.what, err)
		}
	}
}

func TestOdds_CurveRisesToOne(t *testing.T) {
	for _, s := range stories(t) {
		p := made(t, &s.b, s.now)
		c := p.Odds.Curve
		if !slices.IsSortedFunc(c, func(a, b OddsPoint) int {
			if a.Day < b.Day && a.Chance <= b.Chance {
				return -1
			}
			return 1
		}) && len(c) > 1 {
			t.Errorf("%s: the curve does not rise: %+v", s.name, c)
		}
		if len(c) == 0 || c[len(c)-1].Chance != 1 {
			t.Errorf("%s: the curve ends at %+v, want 1", s.name, c)
		}
		if d := p.Dates; d.P50 > d.P80 || d.P80 > d.P90 {
			t.Errorf("%s: half by %s, four in five by %s, nine in ten by %s", s.name, d.P50, d.P80, d.P90)
		}
	}
}

func TestWordOf(t *testing.T) {
	for _, tt := range []struct {
		chance float64
		want   string
	}{{1, "safe"}, {0.8, "safe"}, {0.7999, "tight"}, {0.5, "tight"}, {0.4999, "slipping"}, {0.1, "slipping"}, {0.0999, "lost"}, {0, "lost"}} {
		if got := WordOf(tt.chance); got != tt.want {
			t.Errorf("%v is %s, want %s", tt.chance, got, tt.want)
		}
	}
}
