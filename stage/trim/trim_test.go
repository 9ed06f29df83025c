package trim_test

import (
	"testing"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/stage/trim"
	"fettle/unit"
)

// morning is the demo build on a day.
func morning(tb testing.TB, day unit.Date) build.Build {
	tb.Helper()
	file, err := demo.Pedlar()
	if err != nil {
		tb.Fatal(err)
	}
	b, err := scenario.Replay(file, day)
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

var october = unit.Day(2026, 10, 12)

func TestNeeds_OfTheDemo(t *testing.T) {
	b := morning(t, october)
	for _, n := range trim.Needs(&b) {
		t.Logf("%+v", n)
	}
	for _, c := range trim.Checks(&b) {
		t.Logf("%s: %s. %s", c.ID, c.Says, c.Do)
	}
	v := trim.VerdictOf(&b, "tan leather")
	t.Logf("%+v", v.Faults)
	t.Log(v.Gap, v.Nearest, len(v.Missing))
}
