package hatch

import (
	"strings"
	"testing"
)

func TestFill(t *testing.T) {
	cases := []struct{ state, colour, want string }{
		{"keep", "#1F4A55", "none"}, {"in epoxy", "", "url(#h-epoxy)"}, {"in colour", "#1F4A55", "#1F4A55"},
		{"fitted", "#1F4A55", "#1F4A55"}, {"fitted", "", "none"}, {"fitted", `url(#x)`, "none"}, {"no such state", "", "none"},
	}
	for _, c := range cases {
		if got := Fill(c.state, c.colour); got != c.want {
			t.Errorf("%s with %q: got %q, want %q", c.state, c.colour, got, c.want)
		}
	}
}

// TestStates tells every state from every other by pattern or outline alone,
// and draws every pattern it names.
func TestStates(t *testing.T) {
	var b strings.Builder
	if err := Defs().Render(t.Context(), &b); err != nil {
		t.Fatal(err)
	}
	seen := map[string]string{}
	for _, s := range States() {
		look := Fill(s, "#000000") + " " + Class(s)
		if other, ok := seen[look]; ok {
			t.Errorf("%s and %s look the same", s, other)
		}
		seen[look] = s
		if id, ok := strings.CutPrefix(Fill(s, ""), "url(#"); ok && !strings.Contains(b.String(), `id="`+strings.TrimSuffix(id, ")")+`"`) {
			t.Errorf("%s: no pattern %s", s, id)
		}
	}
}
