package scenario_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/internal/scenario"
	"fettle/unit"
)

const limit = 1 << 20

func small(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile("testdata/small.json")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func read(t testing.TB, text string) scenario.File {
	t.Helper()
	f, err := scenario.Read(strings.NewReader(text), limit)
	if err != nil {
		t.Fatalf("Read: %v", err)
	}
	return f
}

func TestRead_TakesEveryFact(t *testing.T) {
	f := read(t, small(t))
	if got, want := f.Build.People[0].Rate, unit.Money(20_50); got != want {
		t.Errorf("rate = %d, want %d", got, want)
	}
	if got, want := len(f.Days), 3; got != want {
		t.Fatalf("days = %d, want %d", got, want)
	}
	if got, want := f.Days[1].Changes[0].Kind(), "record-hours"; got != want {
		t.Errorf("first change of day 2 = %s, want %s", got, want)
	}
}

// TestRead_RefusesAndSaysWhere alters one place of a good file and expects one
// message that tells the place.
func TestRead_RefusesAndSaysWhere(t *testing.T) {
	good := small(t)
	tests := []struct {
		name, old, new string
		want           []string
	}{
		{"unknown name", `"aim":500.00`, `"aim":500.00,"colour":"red"`, []string{"build, cause, byte", `nothing called "colour"`}},
		{"name in other letters", `"title"`, `"Title"`, []string{"build, byte", `"Title"`}},
		{"unknown name in a change", `"state":"fitted"`, `"state":"fitted","by":"ann"`, []string{"days, entry 3, changes, entry 1, move-panels, byte", `"by"`}},
		{"name said twice", `"aim":500.00`, `"aim":500.00,"aim":1`, []string{"build, cause, byte", `"aim" is said twice`}},
		{"unknown kind", `"move-panels"`, `"paint-panels"`, []string{"days, entry 3, changes, entry 1, byte", `"paint-panels"`}},
		{"change without kind", `{"kind":"move-panels",`, `{`, []string{"days, entry 3, changes, entry 1, byte", `"kind"`}},
		{"text for a number", `"length_mm":1800`, `"length_mm":"six feet"`, []string{"build, vehicle, length_mm, byte", "six feet"}},
		{"number for text", `"what":"hole"`, `"what":7`, []string{"days, entry 1, changes, entry 1, record-finding, finding, what, byte", "a text is wanted"}},
		{"date that is none", `"ready":"2026-03-20"`, `"ready":"20 March"`, []string{"build, promise, ready, byte", "20 March"}},
		{"fraction of a year", `"year":1950`, `"year":1950.5`, []string{"build, vehicle, year, byte", "1950.5"}},
		{"object for a list", `"trades": [{"id":"W","name":"Welding"}]`, `"trades": {"id":"W"}`, []string{"build, trades, byte", "must be a list"}},
		{"list for an object", `"currency": {"code":"EUR","symbol":"€"}`, `"currency": ["EUR"]`, []string{"build, currency, byte", "must be an object"}},
		{"not JSON", `"form": 1,`, `"form": 1;`, []string{"byte 13", "is not JSON"}},
		{"cut off", good[len(good)-40:], ``, []string{"byte", "ends too early"}},
		{"more after the end", "\n  ]\n}\n", "\n  ]\n}\n{}", []string{"byte", "follows the end"}},
		{"not UTF-8", "The barrow", "The b\xe5rrow", []string{"byte", "UTF-8"}},
		{"newer form", `"form": 1`, `"form": 2`, []string{"form", "form 2"}},
		{"no form", `"form": 1,`, ``, []string{"form", "form 0"}},
		{"facts break a rule", `"length_mm":1800`, `"length_mm":-1800`, []string{"build, vehicle, length_mm", "rule 3"}},
		{"place off its list", `"at_mm":[900,0,300]`, `"at_mm":[900,"left",300]`, []string{"build, loom, waypoints", "left"}},
		{"stretch shorter than straight", `"length_mm":950`, `"length_mm":890`, []string{"build, stretch s, length_mm", "900 mm", "rule 3"}},
		{"fuse of two ratings", `"fuse_a":2`, `"fuse_a":3`, []string{"build, circuit C1, fuse_a", "rule 11"}},
		{"loop in the network", `"wait_days":0`, `"after":["M1"],"wait_days":0`, []string{"build, task M1", "M1 after M1", "rule 6"}},
		{"person without hours", `[8,8,8,8,8,0,0]`, `[0,0,0,0,0,0,0]`, []string{"build, person ann, week_h", "rule 7"}},
		{"change breaks a rule", `"panels":["A1"],"state":"fitted"`, `"panels":["A9"],"state":"fitted"`, []string{"day 3 at 2026-03-03T10:00, change 1, move-panels", "A9", "rule 2"}},
		{"new task after an unknown one", `{"kind":"move-panels","panels":["A1"],"state":"fitted"}`,
			`{"kind":"add-task","task":{"id":"M2","name":"Paint","stage":"paint","after":["M9"],"wait_days":0,"risk":"other"}}`,
			[]string{"day 3 at 2026-03-03T10:00, change 1, add-task, task M2, after", "M9", "rule 2"}},
		{"days out of order", `"at":"2026-03-02T17:00"`, `"at":"2026-03-02T08:00"`, []string{"day 2 at 2026-03-02T08:00, at", "2026-03-02T09:30"}},
		{"day before the start", `"at":"2026-03-02T09:30"`, `"at":"2026-02-02T09:30"`, []string{"day 1 at 2026-02-02T09:30, at"}},
		{"day without a time", `"at":"2026-03-02T09:30"`, `"at":""`, []string{"day 1", "time is missing"}},
		{"day of nobody", `"at":"2026-03-03T10:00","person":"ann"`, `"at":"2026-03-03T10:00","person":" "`, []string{"day 3", "person", "who"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if !strings.Contains(good, tt.old) {
				t.Fatalf("the good file has no %q", tt.old)
			}
			_, err := scenario.Read(strings.NewReader(strings.Replace(good, tt.old, tt.new, 1)), limit)
			if err == nil {
				t.Fatal("Read took it")
			}
			if got := fault.KindOf(err); got != fault.Invalid {
				t.Errorf("kind = %v, want %v (%v)", got, fault.Invalid, err)
			}
			for _, want := range tt.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("message %q does not say %q", err, want)
				}
			}
		})
	}
}

func TestRead_TellsTheByte(t *testing.T) {
	good := small(t)
	bad := strings.Replace(good, `"length_mm":1800`, `"length_mm":"long"`, 1)
	_, err := scenario.Read(strings.NewReader(bad), limit)
	want := "byte " + unit.FormatDecimal(int64(strings.Index(bad, `"long"`)), 0, 0)
	if err == nil || !strings.Contains(err.Error(), want+":") {
		t.Errorf("message %q does not say %q", err, want)
	}
}

func TestRead_RefusesTooLarge(t *testing.T) {
	text := small(t)
	if _, err := scenario.Read(strings.NewReader(text), int64(len(text))); err != nil {
		t.Errorf("at the limit: %v", err)
	}
	_, err := scenario.Read(strings.NewReader(text), int64(len(text))-1)
	if got := fault.KindOf(err); got != fault.TooLarge {
		t.Errorf("one byte over: kind = %v, want %v", got, fault.TooLarge)
	}
}

func FuzzRead(f *testing.F) {
	good := small(f)
	f.Add(good)
	f.Add(`{"form":1,"build":{"tasks":null},"days":[]}`)
	f.Add(strings.Replace(good, `"worked_h":3.5`, `"worked_h":"1e9"`, 1))
	f.Add(strings.Replace(good, `"end-task"`, `"start"`, 1))
	f.Add(`[[[[`)
	f.Fuzz(func(t *testing.T, text string) {
		file, err := scenario.Read(strings.NewReader(text), limit)
		if err != nil {
			if k := fault.KindOf(err); k != fault.Invalid && k != fault.TooLarge {
				t.Fatalf("kind = %v of %v", k, err)
			}
			return
		}
		var first, second bytes.Buffer
		if err := scenario.Write(&first, file); err != nil {
			t.Fatalf("cannot write what was read: %v", err)
		}
		again, err := scenario.Read(bytes.NewReader(first.Bytes()), limit*8)
		if err != nil {
			t.Fatalf("cannot read what was written: %v\n%s", err, first.String())
		}
		if err := scenario.Write(&second, again); err != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Fatalf("written twice, two texts (%v):\n%s\n%s", err, first.String(), second.String())
		}
	})
}
