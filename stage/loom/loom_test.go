package loom_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/rates"
	"fettle/stage/loom"
	"fettle/takeoff"
	"fettle/unit"
)

const mm = unit.Millimetre

// van is the demo build on a day, 0 at its end.
func van(t testing.TB, day unit.Date) *build.Build {
	t.Helper()
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	b, err := scenario.Replay(f, day)
	if err != nil {
		t.Fatal(err)
	}
	return &b
}

func work(t testing.TB, b *build.Build) loom.Sheet {
	t.Helper()
	s, err := loom.Work(context.Background(), b)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func checksOf(b *build.Build) map[string]takeoff.Check {
	list := map[string]takeoff.Check{}
	for _, c := range (loom.Stage{}).TakeOff(b, rates.Default()).Checks {
		list[c.ID] = c
	}
	return list
}

// TestVan_Rows holds the forty circuits to sections and drops worked by hand,
// but for C08, which its pair lifts from 0.5 mm² and 0.38 V.
func TestVan_Rows(t *testing.T) {
	want := strings.Fields(`C01 35 0.15 C02 16 0.1 C03 16 0.07 C04 3.0 0.08 C05 0.5 0.28 C06 1.0 0.25 C07 2.0 0.21 C08 1.0 0.19
		C09 1.0 0.25 C10 1.0 0.2 C11 1.0 0.27 C12 0.5 0.2 C13 0.5 0.3 C14 0.5 0.04 C15 1.0 0.35 C16 0.5 0.07 C17 2.0 0.21 C18 2.0 0.22 C19 1.0 0.14
		C20 0.5 0.35 C21 1.0 0.13 C22 1.0 0.11 C23 1.0 0.17 C24 2.0 0.15 C25 3.0 0.1 C26 0.5 0.03 C27 0.5 0.01 C28 0.5 0.01 C29 0.5 0.01 C30 0.5 0.01
		C31 0.5 0.08 C32 0.5 0.27 C33 0.5 0.09 C34 1.0 0.17 C35 0.5 0.12 C36 0.5 0.15 C37 2.0 0.38 C38 0.5 0.01 C39 0.5 0 C40 35 0.06`)
	rows := work(t, van(t, 0)).Rows
	if len(rows) != 40 {
		t.Fatalf("%d rows", len(rows))
	}
	for i, r := range rows {
		drop := strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", r.DropV), "0"), ".")
		if got := []string{r.ID, r.Section, drop}; !slices.Equal(got, want[3*i:3*i+3]) {
			t.Errorf("%v, want %v", got, want[3*i:3*i+3])
		}
		if r.Circuit == nil || r.Working.With == "" || r.Drop.With == "" || r.StatedMM != r.Circuit.Length.Mm() {
			t.Errorf("%s has no working or another length: %+v", r.ID, r)
		}
		if drawn := len(r.Circuit.Ends) > 0; drawn != (r.RoutedMM > 0) {
			t.Errorf("%s is routed over %.0f mm, its ends are %v", r.ID, r.RoutedMM, r.Circuit.Ends)
		}
	}
	if c := rows[7]; c.Rule != "pair" || c.AU7 != "U/R" || c.IEC != "BURD" || c.Words != "blue/red" {
		t.Errorf("C08: %+v", c)
	}
}

// TestVan_Sheet: what is cut is what is labelled, metered and wanted.
func TestVan_Sheet(t *testing.T) {
	b := van(t, 0)
	s := work(t, b)
	if s.Route == nil || s.Route.Status == "not all fits" || len(s.Holes) != 15 {
		t.Fatalf("route %+v, %d holes", s.Route, len(s.Holes))
	}
	for _, h := range s.Holes {
		if h.Wires == 0 || h.Bundle <= 0 || h.Bundle > h.Clear().Mm() || !h.Fits || !h.Drilled || h.PanelName == "" {
			t.Errorf("hole %s: %+v", h.ID, h)
		}
	}
	if len(s.Labels) != 2*len(s.Cuts) || len(s.Continuity) != 48 || len(s.Cuts) != 53 {
		t.Errorf("%d wires, %d labels, %d continuity rows", len(s.Cuts), len(s.Labels), len(s.Continuity))
	}
	seen := map[string]bool{}
	for i, c := range s.Cuts {
		if s.Labels[2*i].Text != c.Label || s.Labels[2*i+1].Text != c.Label || seen[c.Label] || !strings.HasPrefix(c.Label, c.ID+" · ") {
			t.Errorf("labels of %s: %+v", c.ID, s.Labels[2*i:2*i+2])
		}
		seen[c.Label] = true
		if c.CutMM < 1 || c.CutMM != 5*float64(int(c.CutMM/5+0.5)) {
			t.Errorf("%s is cut %g mm", c.ID, c.CutMM)
		}
	}
	if i := slices.IndexFunc(s.Cuts, func(c loom.Cut) bool { return c.ID == "C08" }); s.Cuts[i].Label != "C08 · dip relay:87 → headlamp L · U/R · 1.0 mm²" {
		t.Errorf("label %q", s.Cuts[i].Label)
	}
	for _, n := range s.Needs {
		if n.Part == "" || b.Part(n.Part) == nil || n.Buy < 1 || n.Working.With == "" {
			t.Errorf("need %+v", n)
		}
	}
	for _, p := range s.FirstPower[1:] {
		if p.Working.Caution == "" || p.LampA > 1.8 || p.SupplyA > 5 || p.SupplyV > p.Volts+1e-9 {
			t.Errorf("step %+v", p)
		}
	}
	if n := len(s.FirstPower); n != 1+37+1 { // 40 circuits but the starter cable and the straps, and everything off
		t.Errorf("%d steps", n)
	}
}

// TestVan_Wants: the cable on the list of Stores says what it is for.
func TestVan_Wants(t *testing.T) {
	list := loom.Stage{}.TakeOff(van(t, unit.Day(2026, 9, 15)), rates.Default())
	for part, says := range map[build.PartID]string{"Q29": "cable 1.0 mm² blue/red", "Q30": "crimped ends", "Q28": "fuses, blade 7.5 A", "Q24": "grommets, bulkhead grommet for 45 mm"} {
		i := slices.IndexFunc(list.Wants, func(w takeoff.Want) bool { return w.Part == part })
		if i < 0 {
			t.Fatalf("%s is not wanted", part)
		}
		found := false
		for _, in := range list.Wants[i].Figure.Inputs {
			found = found || in.Name == says
		}
		if !found {
			t.Errorf("%s is wanted for %+v", part, list.Wants[i].Figure.Inputs)
		}
	}
}

// TestVan_InFull: by the full rules each wire is judged in the fullest stretch
// of its way, and the van has no fault but those of the list and of the route.
func TestVan_InFull(t *testing.T) {
	b := van(t, 0)
	listed := work(t, b)
	b.Loom.Settings.Rules = "in full"
	for id, c := range checksOf(b) {
		if !strings.HasPrefix(id, "loom/fuse-overloaded/") && !strings.HasPrefix(id, "loom/box/") && !strings.HasPrefix(id, "loom/longer/") {
			t.Errorf("%s: %s", id, c.Says)
		}
	}
	s := work(t, b)
	lying := map[string]bool{}
	for _, x := range s.Problem.Bundles {
		for _, id := range x.Runs {
			lying[id] = true
		}
	}
	for i, r := range s.Rows {
		in := inputOf(r.Working, "bundle")
		if bare := r.Circuit.Duty == "short" && r.Circuit.Unfused != ""; lying[r.ID] != strings.Contains(in.Note, "in stretch") && !bare {
			t.Errorf("%s lies in a stretch: %v, its working: %+v", r.ID, lying[r.ID], in)
		}
		full := inputOf(listed.Rows[i].Working, "by the full rules")
		if !strings.HasPrefix(full.Value, r.Section+" mm² (") || full.Note == "" {
			t.Errorf("%s is %s mm² by the full rules, the list's working says %q", r.ID, r.Section, full.Value)
		}
	}
	if in := inputOf(s.Rows[11].Working, "bundle"); in.Value == "0.7" {
		t.Errorf("C12 in the trunk: %+v", in)
	}
}

func inputOf(f figure.Figure, name string) figure.Input {
	i := slices.IndexFunc(f.Inputs, func(in figure.Input) bool { return in.Name == name })
	if i < 0 {
		return figure.Input{}
	}
	return f.Inputs[i]
}

// TestVan_ByRoute: sections follow the lengths of the route where the shop
// chose so, and no circuit is longer than its section bears.
func TestVan_ByRoute(t *testing.T) {
	b := van(t, 0)
	if c, told := checksOf(b)["loom/longer/C15"]; !told || !strings.Contains(c.Says, "6.7 m along the route and 5.4 m by the list") {
		t.Errorf("by the list: %+v", c)
	}
	b.Loom.Settings.ByRoute = true
	for id := range checksOf(b) {
		if strings.HasPrefix(id, "loom/longer/") {
			t.Errorf("by the route: %s", id)
		}
	}
	rows := work(t, b).Rows
	if r := rows[14]; r.ID != "C15" || r.Section != "2.0" || r.StatedMM != 5400 || r.RoutedMM < 6600 {
		t.Errorf("C15 by the route: %s mm², %.0f mm listed, %.0f mm routed", r.Section, r.StatedMM, r.RoutedMM)
	}
}
