package sprayout_test

import (
	"math"
	"strings"
	"testing"

	"fettle/build"
	"fettle/rates"
	"fettle/takeoff/sprayout"
)

// TestWrong_LimewashOverBlack: six coats instead of three, twice the litres, two
// and a half hours, and where either sealer belongs.
func TestWrong_LimewashOverBlack(t *testing.T) {
	b := morning(t, october)
	p := sprayout.Read(&b)
	zones := b.Product("base-limewash").Zones
	w := p.Wrong(&b, "base-limewash", "sealer-black", p.Fewest("base-limewash", "sealer-black"), zones, rates.Default())
	if w.Right != "sealer-grey" || w.Needs != 6 || w.Usual != 3 || w.More() != 3 || math.Abs(w.Booth.H()-2.5) > 0.1 {
		t.Errorf("%+v", w)
	}
	text := w.Says(&b) + ". " + w.Do(&b) + w.Figure.With
	for _, want := range []string{"6 coats, not 3", "8.1 l instead of 4.2 l", "+3 coats ≈ +2.5 h", "1.85 l for 15.56 m²", "1.16 l for 9.00 m²", "8.08 l"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q lacks %q", text, want)
		}
	}
	if len(w.Figure.Inputs) <= len(w.Then.Figure.Inputs) {
		t.Error("the working does not say how the coats were counted")
	}
	if w := p.Wrong(&b, "base-limewash", "sealer-grey", "", zones, rates.Default()); w.More() != 0 || w.Then.Volume != w.Now.Volume || !strings.Contains(w.Do(&b), "nearer") {
		t.Errorf("over its own: %+v", w)
	}
}

// TestWrong_OfFlakes: what cannot be worked out is said to be unknown.
func TestWrong_OfFlakes(t *testing.T) {
	b := morning(t, october)
	w := sprayout.Read(&b).Wrong(&b, "base-slackwater", "sealer-grey", "sealer-black", []build.ZoneID{"slackwater"}, rates.Default())
	if w.Needs != 0 || w.More() != 0 || w.Then.Volume != 0 || w.Figure.Text != "not known" || !strings.Contains(w.Why, "flakes") {
		t.Errorf("%+v", w)
	}
}
