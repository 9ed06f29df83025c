package build_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
)

// played is a demo build before each of its days, and the changes of them all.
type played struct {
	name    string
	before  []build.Build
	changes []build.Change
}

func demos(t *testing.T) []played {
	t.Helper()
	var list []played
	for _, read := range []func() (scenario.File, error){demo.Pedlar, demo.Second} {
		f, err := read()
		if err != nil {
			t.Fatal(err)
		}
		p := played{name: f.Build.Name}
		b := f.Build.Clone()
		for _, day := range f.Days {
			p.before = append(p.before, b)
			p.changes = append(p.changes, day.Changes...)
			if b, err = build.ApplyAll(b, day.Changes); err != nil {
				t.Fatalf("%s at %s: %v", f.Build.Name, day.At, err)
			}
		}
		list = append(list, p)
	}
	return list
}

// TestClone_IsIndependentOnTheDemos applies changes of other days, in any
// order, to a clone of a day; most are refused, none may reach the original.
func TestClone_IsIndependentOnTheDemos(t *testing.T) {
	list := demos(t)
	rapid.Check(t, func(r *rapid.T) {
		p := rapid.SampledFrom(list).Draw(r, "demo")
		original := rapid.SampledFrom(p.before).Draw(r, "day")
		before, clone := facts(t, original), original.Clone()
		taken := 0
		for _, c := range rapid.SliceOfN(rapid.SampledFrom(p.changes), 1, 30).Draw(r, "changes") {
			if c.Apply(&clone) == nil {
				taken++
			}
		}
		if d := cmp.Diff(before, facts(t, original)); d != "" {
			r.Fatalf("%s: %d changes on the clone reached the original:\n%s", p.name, taken, d)
		}
	})
}

// TestApply_WholeAfterEveryDay: each day of the demos leaves a whole build, and
// the journal's form of each change does the same as the change.
func TestApply_WholeAfterEveryDay(t *testing.T) {
	for _, p := range demos(t) {
		for i, b := range p.before {
			if err := b.Validate(); err != nil {
				t.Fatalf("%s before day %d: %v", p.name, i+1, err)
			}
		}
		for _, c := range p.changes {
			data, err := build.EncodeNamed(c)
			if err != nil {
				t.Fatal(err)
			}
			again, err := build.DecodeList([]byte("[" + string(data) + "]"))
			if err != nil || form(t, again[0]) != form(t, c) {
				t.Errorf("%s: %s is read back as %+v, %v", p.name, data, again, err)
			}
		}
	}
}

// facts is what a change can reach: all but the drawing, which makes up most
// of a build's size.
func facts(t *testing.T, b build.Build) string {
	t.Helper()
	b.Views = nil
	data, err := json.Marshal(b)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
