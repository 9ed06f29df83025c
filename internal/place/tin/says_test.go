package tin

import (
	"testing"

	"fettle/build"
	"fettle/plan"
	"fettle/unit"
)

func TestSays_NamesEndCostAndCause(t *testing.T) {
	b := build.Build{Currency: unit.Currency{Symbol: "£"}}
	over := plan.Drift{Stage: "metal", Planned: 310 * unit.Hour, Ends: unit.Hours(340.2), Over: unit.Hours(30.2), Cost: 1_004_30, Net: 40_755_70, Without: 41_760_00,
		Cause: "T09", Name: "Metal B: pillars, gutters, roof", Factor: 1.224}
	under := plan.Drift{Stage: "metal", Planned: 310 * unit.Hour, Ends: 300 * unit.Hour, Over: -10 * unit.Hour, Cost: -340_00, Net: 42_100_00, Without: 41_760_00}
	for _, c := range []struct {
		drift plan.Drift
		want  string
	}{
		{over, "Metal ends at about 340 h instead of 310 h, 30 h over, about £1,000 of cash. What reaches the cause falls from £41,760 to £40,760. The cause: T09 Metal B: pillars, gutters, roof ran 1.22×."},
		{under, "Metal ends at about 300 h instead of 310 h, 10 h under, about £340 of cash. What reaches the cause rises from £41,760 to £42,100."},
	} {
		if got := (sheet{Build: &b}).says(c.drift); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}
