package desk_test

import (
	"testing"

	"fettle/figure"
	"fettle/internal/desk"
)

func TestLinked_LeadsToPagesOfTheBuild(t *testing.T) {
	for link, want := range map[string]string{
		"":             "",
		"part/Q11":     "/b/pedlar/part/Q11",
		"finding/F43":  "/b/pedlar/metal/finding/F43",
		"panel/P02":    "/b/pedlar/metal/panel/P02",
		"stores":       "/b/pedlar/stores",
		"/b/other/tin": "/b/other/tin",
	} {
		f := figure.Figure{Inputs: []figure.Input{{Link: link}}}
		if got := desk.Linked("pedlar", f).Inputs[0].Link; got != want {
			t.Errorf("%q leads to %q, want %q", link, got, want)
		}
		if f.Inputs[0].Link != link {
			t.Errorf("the figure itself was altered: %q", f.Inputs[0].Link)
		}
	}
}
