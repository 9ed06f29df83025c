package moments

import (
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/plan"
)

// loomChecks are the checks of a plan about the loom, by ID.
func loomChecks(p plan.Plan) map[string]takeoffCheck {
	list := map[string]takeoffCheck{}
	for _, c := range p.Checks {
		if strings.HasPrefix(c.ID, "loom/") {
			list[c.ID] = c
		}
	}
	return list
}

// TestFuseSums: the list as it stands flags exactly two groups and says that a
// split does not fit the box; left and right indicators and the washer are not
// flagged; the pair rule lifts one dipped beam.
func TestFuseSums(t *testing.T) {
	s := morning(t, "2026-09-23")
	before := s.plan()
	checks := loomChecks(before)
	var flagged []string
	for id := range checks {
		if strings.Contains(id, "fuse") || strings.Contains(id, "wire") {
			flagged = append(flagged, id)
		}
	}
	slices.Sort(flagged)
	f11, f19, box := "loom/fuse-overloaded/fuse F11", "loom/fuse-overloaded/fuse F19", "loom/box/fuse box"
	if want := []string{box, f11, f19}; !slices.Equal(flagged, want) {
		t.Errorf("flagged %q, want %q", flagged, want)
	}
	for id, with := range map[string]string{f11: "6.5 A × 1.25 = 8.1 A > 7.5 A", f19: "10.0 A × 1.25 = 12.5 A > 10 A", box: "splitting what is flagged needs 23 ways of a 22-way box"} {
		if !strings.Contains(checks[id].Figure.With, with) {
			t.Errorf("%s: %q does not say %q", id, checks[id].Figure.With, with)
		}
	}
	for _, c := range []string{"F12", "F14"} {
		if _, told := checks["loom/fuse-overloaded/fuse "+c]; told {
			t.Errorf("%s is flagged", c)
		}
	}
	cable := map[string]bool{} // blue/red are C08 and C09: 0.5 mm² would do for C08 by itself
	for _, o := range before.Orders {
		for _, k := range o.Takes() {
			cable[k.Input.Name] = true
		}
	}
	if !cable["cable 1.0 mm² blue/red"] || cable["cable 0.5 mm² blue/red"] {
		t.Errorf("cable of the dipped beams: %v", cable)
	}
	if c := checks[f11]; !strings.Contains(c.Do, "23 ways of a 22-way box") {
		t.Errorf("what to do about F11: %q", c.Do)
	}

	// The box gets two ways more, and F19 the next fuse: the cable follows.
	tried := s.try(s.changes(
		&build.SetFuseBox{FuseBox: build.FuseBox{Name: "fuse box", Ways: 24, At: "W05"}},
		&build.SetFuse{Fuse: build.Fuse{Name: "F19", Amps: 15, Box: "fuse box"}}))
	after := loomChecks(tried.After)
	if _, still := after[f19]; still {
		t.Error("F19 with 15 A is still flagged")
	}
	if _, still := after[box]; still {
		t.Error("a box of 24 ways is still full")
	}
	if _, still := after[f11]; !still {
		t.Error("F11 is no longer flagged, and nobody split it")
	}
	equal(t, "date when fuses change", tried.After.Dates.P50, before.Dates.P50)
	equal(t, "odds when fuses change", tried.After.Odds.Ready, before.Odds.Ready)
	var settled []string
	for _, c := range tried.KnockOn.Settled {
		settled = append(settled, c.ID)
	}
	if !slices.Contains(settled, f19) || !slices.Contains(settled, box) {
		t.Errorf("the slip says settled: %q", settled)
	}

	// A hotter lamp is found on the circuit that it hangs on.
	hot := s.try(s.changes(&build.SetConsumer{Consumer: build.Consumer{Name: "headlamp L dip", Circuits: []string{"C08"}, Use: "headlamp", Behaviour: "filament", Watts: 100, Volts: 13.2, At: "W27"}}))
	if c := loomChecks(hot.After)["loom/load/C08"]; !strings.Contains(c.Says, "7.6 A, the list says 4.6 A") {
		t.Errorf("100 W on C08: %q", c.Says)
	}
}

// TestHolesBeforePaint: the holes of the loom are asked after until they are
// drilled at the trial build.
func TestHolesBeforePaint(t *testing.T) {
	c, open := loomChecks(morning(t, "2026-11-17").plan())["loom/holes"]
	if !open || !strings.HasPrefix(c.Says, "15 holes for the loom are not drilled") || c.Link != "metal/holes" {
		t.Errorf("before the trial build: %+v", c)
	}
	if c, open := loomChecks(morning(t, "2026-11-20").plan())["loom/holes"]; open {
		t.Errorf("after it: %s", c.Says)
	}
}
