package loomfile_test

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"fettle/engine/loom"
	"fettle/engine/loom/loomfile"
)

func van(t *testing.T) loom.Problem {
	t.Helper()
	f, err := os.Open("testdata/van.json")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	p, err := loomfile.Read(f)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func solve(t *testing.T, p loom.Problem) loom.Result {
	t.Helper()
	r, err := loom.Solve(context.Background(), p, loom.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestVan_Sections holds forty circuits, worked by hand with the rule of the
// list, to two figures of a volt.
func TestVan_Sections(t *testing.T) {
	want := strings.Fields(`C01 35 0.15 C02 16 0.1 C03 16 0.07 C04 3.0 0.08 C05 0.5 0.28 C06 1.0 0.25 C07 2.0 0.21 C08 0.5 0.38
		C09 1.0 0.25 C10 1.0 0.2 C11 1.0 0.27 C12 0.5 0.2 C13 0.5 0.3 C14 0.5 0.04 C15 1.0 0.35 C16 0.5 0.07 C17 2.0 0.21 C18 2.0 0.22 C19 1.0 0.14
		C20 0.5 0.35 C21 1.0 0.13 C22 1.0 0.11 C23 1.0 0.17 C24 2.0 0.15 C25 3.0 0.1 C26 0.5 0.03 C27 0.5 0.01 C28 0.5 0.01 C29 0.5 0.01 C30 0.5 0.01
		C31 0.5 0.08 C32 0.5 0.27 C33 0.5 0.09 C34 1.0 0.17 C35 0.5 0.12 C36 0.5 0.15 C37 2.0 0.38 C38 0.5 0.01 C39 0.5 0 C40 35 0.06`)
	p := van(t)
	for i := range p.Circuits {
		p.Circuits[i].Pair = ""
	}
	metres := map[string]float64{}
	r := solve(t, p)
	for i, one := range r.Runs {
		if got := []string{one.ID, one.Section, strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", one.DropV), "0"), ".")}; !slices.Equal(got, want[3*i:3*i+3]) {
			t.Errorf("%v (%.4f V), want %v", got, one.DropV, want[3*i:3*i+3])
		}
		metres[one.Section] += p.Circuits[i].LengthM
	}
	if got := fmt.Sprintf("%.1f", []float64{metres["0.5"], metres["1.0"], metres["2.0"], metres["3.0"], metres["16"], metres["35"]}); got != "[57.0 23.3 20.9 2.6 3.4 2.2]" {
		t.Errorf("metres by section %s", got)
	}
}

// TestVan_Fuses: exactly two groups carry too much, a split needs a way more
// than the box has, and the pair rule lifts one of the dipped beams.
func TestVan_Fuses(t *testing.T) {
	p := van(t)
	r := solve(t, p)
	var flags []string
	for _, f := range r.Flaws {
		flags = append(flags, string(f.Kind)+" "+f.Place)
	}
	if want := []string{"fuse overloaded fuse F11", "fuse overloaded fuse F19"}; !slices.Equal(flags, want) {
		t.Errorf("flaws %q, want %q", flags, want)
	}
	for _, f := range r.Fuses {
		if with := f.Working.With; f.Name == "F11" && !strings.Contains(with, "6.5 A × 1.25 = 8.1 A > 7.5 A") || f.Name == "F19" && !strings.Contains(with, "10.0 A × 1.25 = 12.5 A > 10 A") {
			t.Errorf("working of %s: %s", f.Name, with)
		}
	}
	if b := r.Boxes[0]; b.Left != 0 || b.AfterSplit != 23 || !strings.Contains(b.Working.With, "needs 23 ways of a 22-way box") || !strings.Contains(r.Flaws[0].Remedy, "needs 23 ways of a 22-way box") {
		t.Errorf("box %+v, remedy %q", b, r.Flaws[0].Remedy)
	}
	if c := r.Runs[7]; c.ID != "C08" || c.Section != "1.0" || c.Rule != loom.ByPair {
		t.Errorf("%s is %s mm² by %s, want 1.0 by the pair", c.ID, c.Section, c.Rule)
	}
	if c := r.Runs[7]; c.AU7 != "U/R" || c.IEC != "BURD" {
		t.Errorf("%s is %q by one code and %q by the other", c.ID, c.AU7, c.IEC)
	}
	for i, one := range r.Runs {
		if one.Rule == loom.ByPair && one.ID != "C08" {
			t.Errorf("the pair rule lifts %s too", p.Circuits[i].ID)
		}
	}

	p.Exclusives = nil
	for i := range p.Circuits {
		if p.Circuits[i].ID == "C22" {
			p.Circuits[i].Duty = loom.Intermittent
		}
	}
	if r := solve(t, p); !r.Fuses[13].Flag || r.Fuses[11].LongA != 7.6 {
		t.Errorf("without what is never together and with a washer that runs on: %+v, %+v, want F12 to carry both sides and F14 flagged", r.Fuses[11], r.Fuses[13])
	}
}

// TestVan_InFull: the fuller rules choose no smaller section for anything that
// is fused, and their result passes.
func TestVan_InFull(t *testing.T) {
	p := van(t)
	list := solve(t, p)
	p.Rules = loom.InFull
	full := solve(t, p)
	for i, one := range full.Runs {
		if one.Rule == loom.ByNone || len(one.Fails) > 0 {
			t.Errorf("%s fails: %s", one.ID, one.Working.With)
		}
		if one.MM2 < 0.7*list.Runs[i].MM2 {
			t.Errorf("%s has %s mm² in full, %s by list", one.ID, one.Section, list.Runs[i].Section)
		}
	}
}

// TestVan_Gauges: the same list in American sizes, by the same rules.
func TestVan_Gauges(t *testing.T) {
	p := van(t)
	p.Rules, p.Cable = loom.InFull, loom.AWGXLPE
	for _, one := range solve(t, p).Runs {
		if one.Rule == loom.ByNone || len(one.Fails) > 0 || !strings.HasPrefix(one.Working.Text, "AWG ") {
			t.Errorf("%s: %s", one.ID, one.Working.With)
		}
	}
}
