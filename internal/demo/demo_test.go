package demo_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"strconv"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
)

// TestScenarios_CarryTheDrawings holds views and outlines to the drawings
// they were taken from.
func TestScenarios_CarryTheDrawings(t *testing.T) {
	for name, f := range map[string]scenario.File{"drawing/pedlar.json": pedlar(t), "drawing/bjelke.json": second(t)} {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var want struct {
			Views  []build.View                      `json:"views"`
			Panels map[build.PanelID][]build.Outline `json:"panels"`
		}
		if err := json.Unmarshal(data, &want); err != nil {
			t.Fatal(err)
		}
		if got := asJSON(t, f.Build.Views); got != asJSON(t, want.Views) {
			t.Errorf("%s: the views differ", name)
		}
		for _, p := range f.Build.Panels {
			if len(p.Outlines) == 0 || asJSON(t, p.Outlines) != asJSON(t, want.Panels[p.ID]) {
				t.Errorf("%s: %s has %d outlines that differ from %d drawn", name, p.ID, len(p.Outlines), len(want.Panels[p.ID]))
			}
		}
	}
}

func asJSON(t *testing.T, v any) string {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestBlastSheet_IsTheMorningOfTheBlast(t *testing.T) {
	sheet, err := build.DecodeList(demo.BlastSheet())
	if err != nil {
		t.Fatal(err)
	}
	if len(sheet) != 14 {
		t.Fatalf("changes = %d, want 14", len(sheet))
	}
	for _, d := range pedlar(t).Days {
		if d.At == blast.At(8, 10) && asJSON(t, d.Changes) == asJSON(t, scenario.Changes(sheet)) {
			return
		}
	}
	t.Error("no day at 08:10 on 6 October holds the same changes")
}

// TestBlastList_SaysTheSame reads the shop's own list against the sheet.
func TestBlastList_SaysTheSame(t *testing.T) {
	sheet, err := build.DecodeList(demo.BlastSheet())
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(demo.BlastList(), []byte("\ufeff")))).ReadAll()
	if err != nil || len(rows) != 15 {
		t.Fatalf("rows = %d, %v; want a heading and 14", len(rows), err)
	}
	for i, row := range rows[1:] {
		at := func(heading string) string {
			for k, h := range rows[0] {
				if h == heading {
					return row[k]
				}
			}
			t.Fatalf("no heading %q", heading)
			return ""
		}
		c := sheet[i].(*build.RecordFinding)
		f := c.Finding
		hours := 0
		for _, h := range []string{"Hours MW", "Hours LD", "Hours WA"} {
			n, _ := strconv.Atoi(at(h))
			hours += n
		}
		got := []string{at("No."), at("Panel"), at("X mm"), at("What was found"), at("Width mm"), at("Remedy")}
		want := []string{string(f.ID), panels(f), mm(f.X.Mm()), f.What, mm(f.Size.Width.Mm()), string(f.Remedy)}
		if strings.Join(got, "|") != strings.Join(want, "|") || float64(hours) != f.Hours().H() {
			t.Errorf("row %d = %v, %d h; want %v, %v", i+1, got, hours, want, f.Hours())
		}
		if len(c.Parts) != 0 && at("Part") != string(c.Parts[0].ID)+" "+c.Parts[0].Name {
			t.Errorf("row %d: part %q, want %s %s", i+1, at("Part"), c.Parts[0].ID, c.Parts[0].Name)
		}
	}
}

func panels(f build.Finding) string {
	names := make([]string, len(f.Panels))
	for i, p := range f.Panels {
		names[i] = string(p)
	}
	return strings.Join(names, "+")
}

func mm(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func TestScenarios_GiveTheSameEntriesTwice(t *testing.T) {
	for name, load := range map[string]func() (scenario.File, error){"pedlar": demo.Pedlar, "bjelke": demo.Second} {
		var ids [2][]string
		seen := map[string]bool{}
		for n := range ids {
			f, err := load()
			if err != nil {
				t.Fatal(err)
			}
			entries, err := scenario.Entries(f, 0)
			if err != nil {
				t.Fatal(err)
			}
			for i, e := range entries {
				if err := e.Validate(); err != nil {
					t.Fatalf("%s, entry %d: %v", name, i+1, err)
				}
				ids[n] = append(ids[n], e.ID)
				seen[e.ID] = true
			}
		}
		if a, b := strings.Join(ids[0], " "), strings.Join(ids[1], " "); a != b || len(seen) != len(ids[0]) {
			t.Errorf("%s: %d entries, %d IDs; loaded twice the same: %v", name, len(ids[0]), len(seen), a == b)
		}
	}
}
