package slip

import (
	"slices"
	"strings"
	"testing"
)

// TestSlip_Changed shows only what changes, the heaviest first, equals in the
// order given.
func TestSlip_Changed(t *testing.T) {
	s := Slip{Lines: []Line{
		{What: "cash", Before: "1", After: "2", Weight: 3}, {What: "hides", Before: "3", After: "3", Weight: 99},
		{What: "date", Before: "a", After: "b", Weight: 9}, {What: "hours", Before: "1", After: "2", Weight: 3},
	}}
	var got []string
	for _, l := range s.changed() {
		got = append(got, l.What)
	}
	if want := []string{"date", "cash", "hours"}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestShow(t *testing.T) {
	cases := []struct {
		name string
		slip Slip
		want []string
	}{
		{"nothing moves", Slip{Keep: "/k", PutBack: "/p"}, []string{"This moves no date", `action="/k"`, `action="/p"`}},
		{"escaped", Slip{Title: "<b>", Lines: []Line{{What: "<i>", Before: "1", After: "2"}}}, []string{"&lt;b&gt;", "&lt;i&gt;"}},
		{"carries", Slip{Entry: "e-1", Hidden: []Hidden{{"panel", "P02"}}}, []string{`name="entry" value="e-1"`, `name="panel" value="P02"`}},
	}
	for _, c := range cases {
		var b strings.Builder
		if err := Show(c.slip).Render(t.Context(), &b); err != nil {
			t.Fatal(err)
		}
		for _, want := range c.want {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%s: lacks %q", c.name, want)
			}
		}
	}
}
