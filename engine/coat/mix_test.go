package coat_test

import (
	"math"
	"strings"
	"testing"

	"fettle/engine/coat"

	"pgregory.net/rapid"
)

var primer = coat.Recipe{Components: []coat.Component{
	{Name: "primer", Parts: 3, Density: 1.35, Solids: 52},
	{Name: "hardener", Role: coat.Hardener, Parts: 1, Density: 1.05, Solids: 45},
	{Name: "reducer", Role: coat.Reducer, Parts: 1, Density: 0.87},
}}

// TestPour_OfTheTrade is the worked value of docs/engine/coat.md.
func TestPour_OfTheTrade(t *testing.T) {
	m, err := primer.Pour(1.2)
	good(t, err)
	for i, want := range []float64{972, 1224, 1432.8} {
		near(t, m.Steps[i].Name, m.Steps[i].Scale, want, 1e-9)
	}
	near(t, "density", m.Density, 1.194, 1e-9)
	near(t, "solids", m.Solids, 40.2, 1e-9)
	if got := m.String(); got != "primer to 972 g, hardener to 1224 g, reducer to 1433 g" {
		t.Errorf("card says %q", got)
	}
}

func TestFrom_OneWeight(t *testing.T) {
	m, err := primer.From(1, 252)
	good(t, err)
	near(t, "volume", m.Litres, 1.2, 1e-12)
	near(t, "primer", m.Steps[0].Grams, 972, 1e-9)
	for _, k := range []int{-1, 3} {
		if _, err := primer.From(k, 1); err == nil {
			t.Errorf("component %d of three: no error", k)
		}
	}
	w, err := primer.Weights()
	good(t, err)
	near(t, "hardener by weight", w[1], 100*252.0/972, 1e-9)
	back, err := coat.ByWeight([]coat.Component{
		{Name: "primer", Parts: w[0], Density: 1.35}, {Name: "hardener", Parts: w[1], Density: 1.05}, {Name: "reducer", Parts: w[2], Density: 0.87}})
	good(t, err)
	p, err := back.Parts()
	good(t, err)
	near(t, "part by volume", p[0]/p[1], 3, 1e-9)
}

// TestExtra_SaysOfWhat: 4:1 + 10 % is 0.5 of all five parts, 0.4 of the paint.
func TestExtra_SaysOfWhat(t *testing.T) {
	r := coat.Recipe{Components: []coat.Component{{Name: "clear", Parts: 4}, {Name: "hardener", Role: coat.Hardener, Parts: 1}, {Name: "reducer", Role: coat.Reducer, Extra: 10}}}
	_, err := r.Parts()
	refused(t, "no basis", err, "the paint or all of it?")
	for basis, want := range map[coat.Basis]float64{coat.OfAll: 0.5, coat.OfPaint: 0.4} {
		r.Basis = basis
		p, err := r.Parts()
		good(t, err)
		near(t, "extra", p[2], want, 1e-12)
	}
}

func TestPour_WithoutDensity(t *testing.T) {
	r := coat.Recipe{Components: []coat.Component{{Name: "colour", Parts: 1, Density: 1}, {Name: "reducer", Parts: 1}}}
	m, err := r.Pour(0.5)
	good(t, err)
	if m.Weighed || m.Steps[0].Grams != 0 || m.Steps[1].Line != 500 || m.String() != "colour to 250 ml, reducer to 500 ml" {
		t.Errorf("mix without a density = %+v", m)
	}
	_, err = r.From(0, 10)
	refused(t, "grams without density", err, "weigh 100 ml")
}

func TestPoured_FlagsHardener(t *testing.T) {
	for _, tt := range []struct {
		hardener float64
		flagged  bool
	}{{252, false}, {252 * 1.05, false}, {252 * 1.06, true}, {252 * 0.94, true}} {
		list, err := primer.Poured([]float64{972, tt.hardener, 300})
		good(t, err)
		if list[1].Flagged != tt.flagged || list[2].Flagged || tt.flagged != (list[1].Words != "") {
			t.Errorf("%g g of hardener: %+v, want flagged %v; reducer never", tt.hardener, list[1], tt.flagged)
		}
	}
	m, add, err := primer.Mend([]float64{972, 504, 0})
	good(t, err)
	near(t, "mended volume", m.Litres, 2.4, 1e-12)
	near(t, "primer to add", add[0], 972, 1e-9)
	near(t, "hardener to add", add[1], 0, 1e-9)
	near(t, "reducer to add", add[2], 417.6, 1e-9)
	_, _, err = primer.Mend([]float64{0, 5, 0})
	refused(t, "hardener alone", err, "no paint")
}

func TestMix_Refuses(t *testing.T) {
	for holds, c := range map[string]coat.Component{
		"a part of 0": {Name: "x"}, "parts": {Name: "x", Parts: -1}, "1350 g/l is written": {Name: "x", Parts: 1, Density: 1350},
		"one of the two": {Name: "x", Parts: 1, Extra: 5}, "solids": {Name: "x", Parts: 1, Solids: 101}, "+ 5 % is written": {Name: "x", Extra: 500},
	} {
		_, err := coat.Recipe{Components: []coat.Component{c}}.Pour(1)
		refused(t, holds, err, holds)
	}
	_, err := coat.Recipe{}.Pour(1)
	refused(t, "empty", err, "a mix of nothing")
	_, err = primer.Pour(math.NaN())
	refused(t, "no volume", err, "no reading")
	_, err = coat.ByWeight([]coat.Component{{Name: "x", Parts: 1}})
	refused(t, "by weight", err, "no density")
}

// TestBatch: a clear of 60 min at 0.2 l a minute is mixed 8.4 l at once.
func TestBatch(t *testing.T) {
	most, err := coat.Batch(60, 0.2, 0)
	good(t, err)
	near(t, "batch", most, 8.4, 1e-12)
	less, err := coat.Batch(60, 0.2, 20)
	good(t, err)
	near(t, "with induction", less, 4.4, 1e-12)
	n, each, err := coat.Batches(10, most)
	if n != 2 || each != 5 || err != nil {
		t.Errorf("10 l are %d of %g, %v, want 2 of 5", n, each, err)
	}
	_, err = coat.Batch(60, 0.2, 50)
	refused(t, "all induction", err, "70 %")
}

// TestPour_Properties: running totals rise and end in the whole mass, and what
// follows from any one weight is the same mix.
func TestPour_Properties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var r coat.Recipe
		for range rapid.IntRange(1, 6).Draw(t, "components") {
			r.Components = append(r.Components, coat.Component{Name: "c", Parts: rapid.Float64Range(0.01, 100).Draw(t, "parts"),
				Density: rapid.Float64Range(0.5, 3).Draw(t, "density"), Solids: rapid.Float64Range(0, 100).Draw(t, "solids")})
		}
		litres := rapid.Float64Range(0.01, 50).Draw(t, "litres")
		m, err := r.Pour(litres)
		if err != nil {
			t.Fatal(err)
		}
		last, volume := 0.0, 0.0
		for i, s := range m.Steps {
			if s.Scale < last {
				t.Fatalf("scale falls at step %d", i)
			}
			last, volume = s.Scale, volume+s.Ml
		}
		if math.Abs(last-1000*litres*m.Density) > 1e-6*last || math.Abs(volume-1000*litres) > 1e-6*volume || m.Solids > 100+1e-9 {
			t.Fatalf("totals %g g, %g ml for %g l of %g kg/l, solids %g", last, volume, litres, m.Density, m.Solids)
		}
		k := rapid.IntRange(0, len(m.Steps)-1).Draw(t, "known")
		again, err := r.From(k, m.Steps[k].Grams)
		if err != nil || math.Abs(again.Litres-litres) > 1e-9*litres {
			t.Fatalf("from one weight %g l, %v, want %g", again.Litres, err, litres)
		}
	})
}

func TestParseRatio(t *testing.T) {
	for text, want := range map[string][]float64{"3:1:1": {3, 1, 1, 0}, "1:0.8": {1, 0.8, 0}, " 2 : 1 + 5 %": {2, 1, 5}, "4:1:0,5": {4, 1, 0.5, 0}, "1": {1, 0}} {
		parts, extra, err := coat.ParseRatio(text)
		got := append(parts, extra)
		for i := range want {
			if err != nil || len(got) != len(want) || got[i] != want[i] {
				t.Errorf("%q = %v, %v, want %v", text, got, err, want)
				break
			}
		}
	}
	for _, text := range []string{"", "3:0:1", "3::1", "a", "1:-1", "1e3", "NaN", "1:1 + 5", "1 + %", "1 + 5 % + 5 %", "0x1:1", "99999:1", "1:1 + 0 %"} {
		_, _, err := coat.ParseRatio(text)
		refused(t, text, err, "")
	}
}

func FuzzParseRatio(f *testing.F) {
	for _, s := range []string{"3:1:1", "2:1 + 5 %", "1:0,8", ":", "+", "1:1e9", "∞", "1:٣"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		parts, extra, err := coat.ParseRatio(text)
		if err != nil {
			return
		}
		if len(parts) != 1+strings.Count(text, ":") || !(extra >= 0 && extra <= 100) {
			t.Fatalf("%q = %v + %g", text, parts, extra)
		}
		for _, p := range parts {
			if !(p > 0 && p <= 1e4) {
				t.Fatalf("%q has a part of %g", text, p)
			}
		}
	})
}
