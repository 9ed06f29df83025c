// Package moments walks the stories that the shop lives by, through the same
// doors as a person: the command line and the pages, on the demo build.
package moments

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/cli"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/plan"
	"fettle/unit"
)

// shop is a data folder with the demo build replayed to a morning.
type shop struct {
	t        *testing.T
	dir, now string
}

// morning opens the demo build as it stands when the shop opens on a day.
func morning(t *testing.T, day string) shop {
	t.Helper()
	file, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := scenario.Write(&text, file); err != nil {
		t.Fatal(err)
	}
	s := shop{t, t.TempDir(), day}
	from := s.file("scenario.json", text.Bytes())
	s.run("new", "pedlar", "--from", from, "--until", day)
	return s
}

// file writes a file beside the data.
func (s shop) file(name string, data []byte) string {
	s.t.Helper()
	path := filepath.Join(s.t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		s.t.Fatal(err)
	}
	return path
}

// changes writes a list of changes as a person would hand it in.
func (s shop) changes(list ...build.Change) string {
	s.t.Helper()
	var parts []string
	for _, c := range list {
		body, err := build.EncodeNamed(c)
		if err != nil {
			s.t.Fatal(err)
		}
		parts = append(parts, string(body))
	}
	return s.file("changes.json", []byte("["+strings.Join(parts, ",")+"]"))
}

// run runs a command that must succeed and returns what it prints.
func (s shop) run(args ...string) []byte {
	s.t.Helper()
	var out, errs bytes.Buffer
	args = append(args, "--data", s.dir, "--now", s.now)
	if code := cli.Main(args, strings.NewReader(""), &out, &errs); code != 0 {
		s.t.Fatalf("fettle %s: exit %d\n%s", strings.Join(args, " "), code, errs.String())
	}
	return out.Bytes()
}

// plan returns the plan as the command line prints it.
func (s shop) plan() plan.Plan { return decode[plan.Plan](s.t, s.run("plan", "pedlar", "--json")) }

// trial is what try prints.
type trial struct {
	KnockOn plan.KnockOn `json:"knock_on"`
	Before  plan.Plan    `json:"before"`
	After   plan.Plan    `json:"after"`
}

// try tries a list of changes.
func (s shop) try(path string) trial {
	return decode[trial](s.t, s.run("try", "pedlar", path, "--json"))
}

func decode[T any](t *testing.T, data []byte) T {
	t.Helper()
	var v T
	if err := json.Unmarshal(data, &v); err != nil {
		t.Fatalf("%v in %.200s", err, data)
	}
	return v
}

// workdays counts working days between two dates, Monday to Friday less the
// closure of the turn of the year.
func workdays(a, b unit.Date) int {
	if b < a {
		return workdays(b, a)
	}
	n := 0
	for d := a + 1; d <= b; d++ {
		shut := d >= unit.Day(2026, 12, 24) && d <= unit.Day(2027, 1, 3)
		if w := d.Weekday(); w != 0 && w != 6 && !shut {
			n++
		}
	}
	return n
}

// near fails when two dates lie more than three working days apart.
func near(t *testing.T, what string, got, want unit.Date) {
	t.Helper()
	if n := workdays(got, want); n > 3 {
		t.Errorf("%s = %s, want %s within 3 working days, is %d off", what, got.Long(), want.Long(), n)
	}
}

// equal fails when two values differ.
func equal[T comparable](t *testing.T, what string, got, want T) {
	t.Helper()
	if got != want {
		t.Errorf("%s = %v, want %v", what, got, want)
	}
}
