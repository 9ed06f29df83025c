package look_test

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/rates"
	"fettle/stage/look"
	"fettle/takeoff/sprayout"
)

// TestStops_LimewashOverBlack is the painter about to seal the upper body black
// with the lower.
func TestStops_LimewashOverBlack(t *testing.T) {
	b := morning(t, october)
	p := sprayout.Read(&b)
	if got := look.Stops(p, &b, rates.Default()); len(got) != 0 {
		t.Fatalf("the look as it is stops: %+v", got)
	}
	wrong := b.Look("high-water")
	wrong.Panels = nil // the line as it is
	for i := range wrong.Zones {
		if wrong.Zones[i].Base == "base-limewash" {
			wrong.Zones[i].Undercoat = "sealer-black"
		}
	}
	all, err := build.ApplyAll(b, []build.Change{&build.ChooseLook{Look: "high-water"}})
	if err != nil {
		t.Fatal(err)
	}
	got := look.Stops(p, &all, rates.Default())
	if len(got) != 1 || got[0].Right != "sealer-grey" || len(got[0].Zones) != 3 {
		t.Fatalf("%+v", got)
	}
	text := got[0].Says(&all) + ". " + got[0].Do(&all)
	for _, want := range []string{"6 coats, not 3", "8.1 l instead of 4.2 l", "+3 coats ≈ +2.5 h", "1.85 l for 15.56 m²", "1.16 l for 9.00 m²", "Sealer light grey here"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q lacks %q", text, want)
		}
	}
}

// TestTakeOff_ShowsThrough: a sealer that the sheet allows and that the planned
// coats do not hide is a check, until the colour is on.
func TestTakeOff_ShowsThrough(t *testing.T) {
	b := morning(t, october)
	checks := func() int { return len(look.Stage{}.TakeOff(&b, rates.Default()).Checks) }
	if n := checks(); n != 0 {
		t.Fatalf("%d checks as it is", n)
	}
	base := b.Product("base-limewash")
	base.Coats = 2
	got := look.Stage{}.TakeOff(&b, rates.Default()).Checks
	if len(got) != 1 || got[0].ID != "shows-through/base-limewash/sealer-grey" || !strings.Contains(got[0].Says, "needs 3 coats, not 2") {
		t.Fatalf("%+v", got)
	}
	b.Coats = append(b.Coats, build.Coat{Product: base.ID})
	if n := checks(); n != 0 {
		t.Errorf("%d checks with the colour on", n)
	}
}
