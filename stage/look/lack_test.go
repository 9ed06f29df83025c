package look_test

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/rates"
	"fettle/stage/look"
	"fettle/takeoff/sprayout"
)

// kelp is a look with a colour that nobody has paint of.
func kelp(t *testing.T) (build.Build, build.Look) {
	t.Helper()
	b, err := build.ApplyAll(morning(t, october), []build.Change{&build.SetColour{Colour: build.Colour{ID: "kelp", Name: "Kelp", Face: "#3B4A2F"}}})
	if err != nil {
		t.Fatal(err)
	}
	return b, build.Look{ID: "kelp", Name: "Kelp", Zones: []build.LookZone{{Zone: "slackwater", Colour: "kelp"}}}
}

// TestReckon_AColourWithoutPaint: it is seen as it is named, its litres are not
// known, and those of the paint that it takes the place of are not counted.
func TestReckon_AColourWithoutPaint(t *testing.T) {
	b, l := kelp(t)
	a, err := look.Reckon(b, l, rates.Default())
	if err != nil || len(a.Unknown) != 1 || a.Unknown[0].Name != "Kelp" || a.Unknown[0].Area != b.ZoneArea("slackwater") {
		t.Fatalf("%+v, %v", a.Unknown, err)
	}
	for _, p := range a.Paint {
		if p.Product == "base-slackwater" {
			t.Errorf("%s of the old colour is counted", p.Volume)
		}
	}
	after, err := look.Apply(b, l)
	if err != nil {
		t.Fatal(err)
	}
	seen := look.Dress(sprayout.Read(&b), &after)[0]
	if seen.Basis != sprayout.Named || seen.Screen(0) != "#3b4a2f" || seen.Product != "" || !strings.Contains(seen.Why, "no paint of Kelp") {
		t.Errorf("%+v", seen)
	}
	if whole, err := look.Reckon(b, b.Looks[0], rates.Default()); err != nil || len(whole.Unknown) != 0 {
		t.Errorf("a look with all its paint lacks %+v, %v", whole.Unknown, err)
	}
}

// TestTakeOff_AColourWithoutPaint: chosen all the same, it is a check.
func TestTakeOff_AColourWithoutPaint(t *testing.T) {
	b, l := kelp(t)
	after, err := look.Apply(b, l)
	if err != nil {
		t.Fatal(err)
	}
	checks := look.Stage{}.TakeOff(&after, rates.Default()).Checks
	if len(checks) != 1 || checks[0].ID != "no-paint/kelp" || !strings.Contains(checks[0].Says, "still counts Slackwater base") {
		t.Errorf("%+v", checks)
	}
}
