package loom_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/build"
	"fettle/engine/loom/route"
	"fettle/fault"
	"fettle/rates"
	stage "fettle/stage/loom"
	"fettle/unit"
)

// TestFirstPower: the lamp in series carries what the load carries, and both
// share the volts; a supply is limited to 5 A; the net is solved in each
// position of its switches.
func TestFirstPower(t *testing.T) {
	b := bench()
	b.Circuits[0].Load, b.Circuits[0].FuseA, b.Loom.Batteries[0].Drain = 8, 15, 8
	steps := work(t, b).FirstPower
	if len(steps) != 2 || steps[0].Amps != 0.008 || !strings.Contains(steps[1].Do, "fuse F1 in, lamp on") {
		t.Fatalf("%+v", steps)
	}
	s := steps[1]
	if byLoad := (12.6 - s.LampV) / (12.6 / 8); math.Abs(byLoad-s.LampA) > 1e-6 || math.Abs(21./12*math.Pow(s.LampV/12, 0.55)-s.LampA) > 1e-6 {
		t.Errorf("lamp %.4f A with %.4f V, load %.4f A", s.LampA, s.LampV, byLoad)
	}
	if s.SupplyA != 5 || math.Abs(s.SupplyV-s.Volts*5/8) > 1e-9 || s.Volts >= 12.6 {
		t.Errorf("limited: %+v", s)
	}
	steps = work(t, net()).FirstPower
	if len(steps) != 2 || math.Abs(steps[1].Amps-21/13.5) > 0.1 || steps[1].Volts < 12.2 || steps[1].Volts > 12.6 || !strings.HasPrefix(steps[1].Do, "switch to on") {
		t.Errorf("net: %+v", steps)
	}
}

// TestContinuity_ThroughASplice: a circuit that reaches two places is read from
// its start to each.
func TestContinuity_ThroughASplice(t *testing.T) {
	b := bench()
	b.Loom.Waypoints = []build.Waypoint{{ID: "A", Name: "box"}, {ID: "M", At: [3]unit.Length{500 * mm}}, {ID: "B", Name: "left", At: [3]unit.Length{500 * mm, 900 * mm}}, {ID: "C", Name: "right", At: [3]unit.Length{500 * mm, -900 * mm}}}
	b.Loom.Stretches = []build.Stretch{{ID: "1", From: "A", To: "M"}, {ID: "2", From: "M", To: "B"}, {ID: "3", From: "M", To: "C"}}
	b.Circuits[0].Ends = []build.WaypointID{"A", "B", "C"}
	b.Loom.Supplies = supplies()
	s := work(t, b)
	if len(s.Cuts) != 3 || len(s.Continuity) != 2 {
		t.Fatalf("%d wires, %d readings", len(s.Cuts), len(s.Continuity))
	}
	total := 0.0
	for _, c := range s.Cuts {
		total += c.CutMM
		if c.Branch != (c.ID != "C1") || c.Branch && c.StatedMM != 0 || !c.Routed {
			t.Errorf("%+v", c)
		}
	}
	if row := s.Rows[0]; row.RoutedMM < 1400 || row.RoutedMM > 1500 || total < 2300 {
		t.Errorf("routed %.0f mm, %.0f mm are cut", row.RoutedMM, total)
	}
	var to []string
	for _, c := range s.Continuity {
		to = append(to, c.From+" "+c.To)
		if c.OhmsMax <= 0.1 || c.OhmsMax > 0.1+3*0.0371 {
			t.Errorf("%s: %.3f Ω", c.ID, c.OhmsMax)
		}
	}
	slices.Sort(to)
	if want := []string{"box left", "box right"}; !slices.Equal(to, want) {
		t.Errorf("read %q, want %q", to, want)
	}

	b.Loom.Stretches[1].Forbidden = "exhaust"
	found := false
	for _, c := range work(t, b).Checks {
		found = found || strings.HasPrefix(c.ID, "loom/route/no-way/")
	}
	if !found {
		t.Error("a forbidden stretch that is the only way is not told")
	}
}

// TestWork_Stopped: stopped work is an error, not half a loom.
func TestWork_Stopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if s, err := stage.Work(ctx, van(t, 0)); err == nil && s.Route != nil && s.Route.Status != "interrupted" {
		t.Errorf("status %s", s.Route.Status)
	}
}

// TestWork_AnyFacts: whatever is typed, the loom is worked out or refused with
// its place, and what is cut is labelled at both ends.
func TestWork_AnyFacts(t *testing.T) {
	from := van(t, 0)
	rapid.Check(t, func(r *rapid.T) {
		b := from.Clone()
		for range rapid.IntRange(1, 6).Draw(r, "edits") {
			c := &b.Circuits[rapid.IntRange(0, len(b.Circuits)-1).Draw(r, "circuit")]
			switch rapid.IntRange(0, 8).Draw(r, "what") {
			case 0:
				c.Load = rapid.SampledFrom([]float64{0, 0.01, 3, 90, 2000}).Draw(r, "load")
			case 1:
				c.Length = unit.Length(rapid.Int64Range(1, int64(20*unit.Metre)).Draw(r, "length"))
			case 2:
				c.Section = rapid.SampledFrom([]string{"", "0.5", "35", "AWG 16", "9.9"}).Draw(r, "section")
			case 3:
				c.Fuse = rapid.SampledFrom([]string{"", "none", "link", "F1", "F99"}).Draw(r, "fuse")
				c.FuseA = rapid.SampledFrom([]float64{0, 1, 20, 300}).Draw(r, "amps")
			case 4:
				c.Colour = rapid.SampledFrom([]string{"", "puce", "BURD", "B/W/R", "blue/red"}).Draw(r, "colour")
			case 5:
				w := b.Loom.Waypoints
				c.Ends = nil
				for range rapid.IntRange(0, 4).Draw(r, "ends") {
					c.Ends = append(c.Ends, w[rapid.IntRange(0, len(w)-1).Draw(r, "end")].ID)
				}
			case 6:
				b.Loom.Stretches[rapid.IntRange(0, len(b.Loom.Stretches)-1).Draw(r, "stretch")].Forbidden = "heat"
			case 7:
				b.Loom.Settings.Rules = rapid.SampledFrom([]string{"", "in full", "by list"}).Draw(r, "rules")
				b.Loom.Settings.Volts = rapid.SampledFrom([]float64{0, 6, 12, 24}).Draw(r, "volts")
				b.Loom.Settings.PositiveEarth = rapid.Bool().Draw(r, "positive")
			case 8:
				b.Loom.Holes[rapid.IntRange(0, 14).Draw(r, "hole")].Diameter = rapid.SampledFrom([]unit.Length{5 * mm, 9 * mm, 60 * mm}).Draw(r, "bore")
			}
		}
		stage.Stage{}.TakeOff(&b, rates.Default())
		s, err := stage.Work(context.Background(), &b)
		if err != nil {
			if fault.KindOf(err) != fault.Invalid {
				r.Fatalf("%v", err)
			}
			return
		}
		if len(s.Labels) != 2*len(s.Cuts) || len(s.Rows) != len(b.Circuits) || len(s.Cuts) < len(b.Circuits) {
			r.Fatalf("%d rows, %d wires, %d labels of %d circuits", len(s.Rows), len(s.Cuts), len(s.Labels), len(b.Circuits))
		}
	})
}

// TestBoardOf: without a board of its own the van's loom lies on the smallest of
// whole sheets at the angles and distances asked for; one too small is told, and
// a loom without a route lies on none.
func TestBoardOf(t *testing.T) {
	b := van(t, 0)
	got, laid, err := stage.BoardOf(context.Background(), b, work(t, b))
	if err != nil || !laid || got.Status != "laid" || got.Width*got.Height > 6e6 || len(got.Tried) < 2 || got.Angle < 29.9 || len(got.Findings) != 0 {
		t.Errorf("%v, %v: %s on %g × %g mm, %.1f°, %+v", laid, err, got.Status, got.Width, got.Height, got.Angle, got.Findings)
	}
	sizes, err := stage.BoardSizes(context.Background(), b, work(t, b))
	if err != nil || len(sizes) < 5 || sizes[0].Fits() || !sizes[len(sizes)-1].Fits() {
		t.Errorf("%+v, %v", sizes, err)
	}
	for _, x := range got.Faces {
		if b.Loom.Waypoint(build.WaypointID(x.Node)) == nil {
			t.Errorf("a face at %s", x.Node)
		}
	}
	if _, laid, err := stage.BoardOf(context.Background(), bench(), work(t, bench())); laid || err != nil {
		t.Errorf("without a route: %v, %v", laid, err)
	}
}

// TestRouteOf_Cavities: a circuit ends in the cavity of the connector that has
// it, one that no connector has in a place of its own.
func TestRouteOf_Cavities(t *testing.T) {
	s := work(t, van(t, 0))
	for id, want := range map[string]string{"C08": "W27:1", "C10": "W27:2", "C13.3": "W42:1", "C24": "W26:C24"} {
		i := slices.IndexFunc(s.Ways.Wires, func(w route.Wire) bool { return w.ID == id })
		if i < 0 || s.Ways.Wires[i].To.String() != want {
			t.Errorf("%s ends in %v, want %s", id, s.Ways.Wires[i].To, want)
		}
	}
}
