package working

import (
	"strings"
	"testing"

	"fettle/figure"
)

func TestCut(t *testing.T) {
	for text, want := range map[string][2]string{
		"310.5 h": {"310.5", " h"}, "28 %": {"28", " %"}, "£41,760": {"£41,760", ""}, "none": {"none", ""}, "": {"", ""},
		"22 Feb 2027": {"22 Feb 2027", ""}, "52.46 m²": {"52.46", " m²"}, "38 of 40 h": {"38 of 40", " h"}, "0.4 to 0.8 mm": {"0.4 to 0.8", " mm"}, "37.6 A of 44.0 A": {"37.6 A of 44.0 A", ""}, "3 in the second drawer": {"3 in the second drawer", ""},
	} {
		if n, u := cut(text); n != want[0] || u != want[1] {
			t.Errorf("%q: got %q and %q, want %q", text, n, u, want)
		}
	}
}

// TestFigure shows every part of the working of a number.
func TestFigure(t *testing.T) {
	f := figure.Figure{
		Name: "Metal hours", Text: "310 h", Formula: "sum of all findings", With: "224 + 86 = 310 h", Caution: "Lead dust.",
		Inputs: []figure.Input{{Name: "Found", Value: "224 h", Source: figure.OwnPast, Note: "n = 17", Link: "finding/F1"}},
	}
	var b strings.Builder
	if err := Figure("hours", Large, f).Render(t.Context(), &b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`popovertarget="w-hours"`, `id="w-hours"`, "figure-large", "310", "sum of all findings", "224 + 86 = 310 h",
		"own past", "n = 17", `href="finding/F1"`, "Lead dust.",
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("lacks %q", want)
		}
	}
}
