package build_test

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"fettle/build"
	"fettle/fault"
)

// pool returns every change the tests know, right and wrong.
func pool() []build.Change {
	var list []build.Change
	for _, a := range acts() {
		list = append(list, a.change)
	}
	for _, n := range slices.Concat(noesOnMetal(), noesOnTasks(), noesOfPeople(), noesInStores(), noesInTheTin(), noesOnPaint(), noesOnColour(), noesOnPatterns(), noesOnSeams(), noesOnSundries(), noesOnLoom()) {
		list = append(list, n.change)
	}
	for _, run := range afterwards() {
		list = append(list, run...)
	}
	return list
}

// slips are what a slip of the finger puts in place of a value.
var slips = []any{"", " ", "P1", "P9", "F01", "F09", "T1", "T2", "T9", "MW", "XX", "Q1", "Q2", "O1", "G1-1", "closed", "repair", "wanted", "parts", "line",
	"2026-03-01", "2026-03-09", "9999-12-31", "2026-03-02T09:00", 0, -1, 1, 3, 1e9, 1e12, 0.5, true, nil, []any{}, map[string]any{}, strings.Repeat("x", 5000)}

// broken returns the value with one thing in it drawn anew.
func broken(t *rapid.T, v any) any {
	switch v := v.(type) {
	case map[string]any:
		keys := make([]string, 0, len(v))
		for k := range v {
			keys = append(keys, k)
		}
		if len(keys) > 0 && rapid.IntRange(0, 9).Draw(t, "deeper") > 0 {
			slices.Sort(keys)
			k := rapid.SampledFrom(keys).Draw(t, "key")
			v[k] = broken(t, v[k])
			return v
		}
	case []any:
		if len(v) > 0 && rapid.IntRange(0, 4).Draw(t, "deeper") > 0 {
			i := rapid.IntRange(0, len(v)-1).Draw(t, "index")
			v[i] = broken(t, v[i])
			return v
		}
	}
	return rapid.SampledFrom(slips).Draw(t, "slip")
}

// mangled draws a change of any kind and breaks none to three things in its
// JSON form. It is nil where the form itself is refused, as it must be: with a
// fault that says where.
func mangled(t *rapid.T) build.Change {
	c := rapid.SampledFrom(pool()).Draw(t, "change")
	data, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	var form any
	if err := json.Unmarshal(data, &form); err != nil {
		t.Fatal(err)
	}
	for range rapid.IntRange(0, 3).Draw(t, "times") {
		form = broken(t, form)
	}
	if data, err = json.Marshal(form); err != nil {
		t.Fatal(err)
	}
	got, err := build.Decode(c.Kind(), 1, data)
	if err != nil {
		if f, ok := errors.AsType[*fault.Fault](err); !ok || f.Kind != fault.Invalid || !strings.HasPrefix(f.Where, c.Kind()) {
			t.Fatalf("decoding %s: %v, want an invalid fault at %s", data, err, c.Kind())
		}
	}
	return got
}

// TestChange_AllOrNothing: whatever is handed in, a change either leaves a
// whole build or names its rule and leaves the build as it was.
func TestChange_AllOrNothing(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		b := cart()
		for range rapid.IntRange(1, 6).Draw(r, "changes") {
			c := mangled(r)
			if c == nil {
				continue
			}
			c.Say(&b)
			before := copyOf(t, b)
			err := c.Apply(&b)
			if err == nil {
				if err := b.Validate(); err != nil {
					r.Fatalf("%s was taken and the build is no longer whole: %v", c.Kind(), err)
				}
				continue
			}
			if f, ok := errors.AsType[*fault.Fault](err); !ok || f.Kind != fault.Invalid || !strings.Contains(f.Msg, "(rule ") {
				r.Fatalf("%s: %v, want a fault that names a rule", c.Kind(), err)
			}
			if d := cmp.Diff(before, copyOf(t, b)); d != "" {
				r.Fatalf("a refused %s altered the build (-before +after):\n%s", c.Kind(), d)
			}
		}
	})
}

// TestClone_IsIndependent: no change, right or wrong, reaches through a clone.
func TestClone_IsIndependent(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		original := cart()
		for range rapid.IntRange(0, 3).Draw(r, "before") {
			if c := mangled(r); c != nil {
				_ = c.Apply(&original)
			}
		}
		before := copyOf(t, original)
		clone := original.Clone()
		for range rapid.IntRange(1, 8).Draw(r, "after") {
			if c := mangled(r); c != nil {
				_ = c.Apply(&clone)
			}
		}
		if d := cmp.Diff(before, copyOf(t, original)); d != "" {
			r.Fatalf("changing the clone altered the original (-before +after):\n%s", d)
		}
	})
}
