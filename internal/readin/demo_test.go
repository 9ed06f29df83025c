package readin_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/readin"
	"fettle/internal/scenario"
	"fettle/unit"
)

// morning is the demo build as the shop opens on the day after the blast.
func morning(t *testing.T) build.Build {
	t.Helper()
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	b, err := scenario.Replay(f, unit.Day(2026, time.October, 6))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// The shop's own list of the blast must bring about what the fourteen changes
// do that were written by hand, without anybody mapping a heading.
func TestPlan_DemoList(t *testing.T) {
	b := morning(t)
	s, err := readin.Open("blast-sheet.csv", bytes.NewReader(demo.BlastList()), 0)
	if err != nil {
		t.Fatal(err)
	}
	m := readin.Match(readin.Findings, s.Heads)
	if len(m.Missing)+len(m.Unused) > 0 {
		t.Errorf("missing %q, unused %q; want none", m.Missing, m.Unused)
	}
	res := readin.Plan(b, readin.Findings, s, m, readin.Options{})
	for _, r := range res.Rows {
		if r.Status != readin.Good {
			t.Errorf("line %d is %s: %s: %s", r.Line, r.Status, r.Field, r.Reason)
		}
	}
	got, err := build.ApplyAll(b, res.Changes)
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := build.DecodeList(demo.BlastSheet())
	if err != nil {
		t.Fatal(err)
	}
	want, err := build.ApplyAll(b, sheet)
	if err != nil {
		t.Fatal(err)
	}
	// The hand-written changes also name the supplier and every finding a part
	// serves; a list of findings says each part once.
	for _, parts := range [][]build.Part{got.Parts, want.Parts} {
		for i := len(b.Parts); i < len(parts); i++ {
			parts[i].Supplier, parts[i].Because = "", nil
		}
	}
	if g, w := lines(t, got), lines(t, want); g != w {
		gl, wl := strings.Split(g, "\n"), strings.Split(w, "\n")
		for i := range min(len(gl), len(wl)) {
			if gl[i] != wl[i] {
				t.Errorf("got  %s\nwant %s", gl[i], wl[i])
			}
		}
		t.Errorf("the list and the changes give %d and %d facts", len(gl), len(wl))
	}
}

// lines writes findings, panels and parts as JSON, one a line.
func lines(t *testing.T, b build.Build) string {
	t.Helper()
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	for _, f := range b.Findings {
		if err := e.Encode(f); err != nil {
			t.Fatal(err)
		}
	}
	for _, p := range b.Parts {
		e.Encode(p)
	}
	for _, p := range b.Panels {
		e.Encode(struct {
			ID              build.PanelID
			Decision, State build.PanelState
		}{p.ID, p.Decision, p.State})
	}
	return out.String()
}
