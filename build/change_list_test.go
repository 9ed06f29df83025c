package build_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/build"
	"fettle/fault"
)

// row is a build whose list holds tasks A, B, C …
func row(n int) build.Build {
	var b build.Build
	for i := range n {
		id := build.TaskID('A' + rune(i))
		b.Tasks = append(b.Tasks, build.Task{ID: id, Name: strings.ToLower(string(id)), State: build.NotBegun})
	}
	return b
}

func letters(b build.Build) string {
	var s strings.Builder
	for _, t := range b.Tasks {
		s.WriteString(string(t.ID))
	}
	return s.String()
}

func ids(s string) []build.TaskID {
	var list []build.TaskID
	for _, r := range s {
		list = append(list, build.TaskID(r))
	}
	return list
}

func TestArrangeTasks_OthersKeepTheirPlaces(t *testing.T) {
	for _, tt := range []struct{ order, want, says string }{
		{"FB", "AFCDEBGH", "F f before C c; B b before G g"},
		{"EBCD", "AEBCDFGH", "E e before B b"},
		{"CDEB", "ACDEBFGH", "B b before F f"},
		{"HGFEDCBA", "HGFEDCBA", "G g before F f; F f before E e; E e before D d; 4 more moved"},
		{"BCD", "ABCDEFGH", ""},
		{"C", "ABCDEFGH", ""},
	} {
		b := row(8)
		c := &build.ArrangeTasks{Tasks: ids(tt.order)}
		says := c.Say(&b)
		if err := c.Apply(&b); err != nil || letters(b) != tt.want {
			t.Errorf("%s gives %s, %v; want %s", tt.order, letters(b), err, tt.want)
		}
		if tt.says == "" {
			tt.says = "The list stays in its order"
		} else {
			tt.says = "On the list: " + tt.says
		}
		if says != tt.says {
			t.Errorf("%s is told as %q, want %q", tt.order, says, tt.says)
		}
	}
}

func TestArrangeTasks_RefusesWhatIsFinished(t *testing.T) {
	b := row(3)
	b.Tasks[1].State = build.Finished
	err := (&build.ArrangeTasks{Tasks: ids("CB")}).Apply(&b)
	if fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), "rule 9") || letters(b) != "ABC" {
		t.Errorf("%v, list %s", err, letters(b))
	}
}

// TestArrangeTasks_MovedIsWhatMakesTheOrder takes the moved tasks out of the
// old list: what is left stands in the same order in both.
func TestArrangeTasks_MovedIsWhatMakesTheOrder(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		b := row(rapid.IntRange(1, 9).Draw(r, "tasks"))
		some := rapid.SliceOfNDistinct(rapid.SampledFrom(ids(letters(b))), 1, len(b.Tasks), rapid.ID[build.TaskID]).Draw(r, "order")
		c := &build.ArrangeTasks{Tasks: some}
		before, moved := letters(b), c.Moved(&b)
		if err := c.Apply(&b); err != nil {
			r.Fatal(err)
		}
		rest := func(list string) string {
			for _, m := range moved {
				list = strings.ReplaceAll(list, string(m.Task), "")
			}
			return list
		}
		if rest(before) != rest(letters(b)) {
			r.Fatalf("%s to %s: taking out %v leaves %s and %s", before, letters(b), moved, rest(before), rest(letters(b)))
		}
		sorted := slices.Sorted(slices.Values(ids(letters(b))))
		if fmt.Sprint(sorted) != fmt.Sprint(ids(before)) {
			r.Fatalf("%s to %s loses a task", before, letters(b))
		}
		for _, m := range moved {
			old, now := strings.Index(before, string(m.Task)), strings.Index(letters(b), string(m.Task))
			if m.Earlier != (now < old) && now != old {
				r.Fatalf("%s to %s: %s is said to come earlier: %v", before, letters(b), m.Task, m.Earlier)
			}
		}
	})
}
