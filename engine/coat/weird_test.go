package coat_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fettle/engine/coat"

	"pgregory.net/rapid"
)

// TestWeirdNumbers: whatever is typed, an answer is a number or a fault.
func TestWeirdNumbers(t *testing.T) {
	odd := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), 1e-300, 1e300, -1, 0.5, 1, 7, 16, 20, 45, 60, 100, 4500}
	rapid.Check(t, func(t *rapid.T) {
		n := func() float64 { return rapid.SampledFrom(odd).Draw(t, "number") }
		answers := []func() (any, error){
			func() (any, error) {
				return coat.Need{Area: n(), Film: n(), Solids: n(), Transfer: n(), Waste: n(), Purge: n()}.Litres()
			},
			func() (any, error) { return coat.WetFilm(n(), n(), n()) },
			func() (any, error) { return coat.LossFactor(n(), n()) },
			func() (any, error) { return coat.Coats(n(), n()) },
			func() (any, error) { c, step, err := coat.Passes(n(), n(), n()); return []any{c, step}, err },
			func() (any, error) { c, each, err := coat.Batches(n(), n()); return []any{c, each}, err },
			func() (any, error) { return coat.Batch(n(), n(), n()) },
			func() (any, error) { return coat.Scale(n(), n(), n()) },
			func() (any, error) { return coat.PotLife(n(), n()) },
			func() (any, error) { return coat.Flash(n(), n(), n(), n(), n()) },
			func() (any, error) { return coat.ForceDry(n(), n()) },
			func() (any, error) { return coat.Margin(n(), n(), n()) },
			func() (any, error) { return coat.MostRH(n(), n()) },
			func() (any, error) { return coat.RustLimit(n(), n(), n()) },
			func() (any, error) { return coat.FillerFor(n(), n(), n(), n(), n(), n()) },
			func() (any, error) { return coat.AirToDilute(n(), n(), n()) },
			func() (any, error) { return coat.Velocity(n(), n()) },
			func() (any, error) { return coat.Volatile{Mass: n(), Water: n(), Exempt: n(), ExemptVolume: n()}.VOC() },
			func() (any, error) { return coat.MultiStage(n(), []float64{n()}, n()) },
			func() (any, error) { return coat.Measure([]float64{n(), n()}) },
			func() (any, error) {
				return coat.Weighed{Before: n(), After: n(), Density: n(), Solids: n(), Purge: n(), Area: n(), Film: n()}.Transfer()
			},
			func() (any, error) { return coat.BareSince(29_000_000, []coat.Damp{{n(), n(), n(), n()}}) },
			func() (any, error) { return coat.Aged([]coat.Spell{{n(), n()}}, n()) },
			func() (any, error) { return coat.FitWarming([]coat.WarmUp{{n(), n(), n(), n()}}) },
			func() (any, error) { return coat.Recoat{From: n(), To: n(), Doubling: n()}.Window(29_000_000, n()) },
			func() (any, error) {
				return coat.MaySpray(coat.Conditions{Air: 20, RH: n(), Metal: 19}, coat.Asks{HighestRH: 70})
			},
			func() (any, error) {
				return coat.Recipe{Basis: coat.OfAll, Components: []coat.Component{{Name: "a", Parts: n(), Density: n(), Solids: n()}, {Name: "b", Extra: n(), Density: n()}}}.Pour(n())
			},
		}
		k := rapid.IntRange(0, len(answers)-1).Draw(t, "function")
		got, err := answers[k]()
		if text := fmt.Sprint(got); err == nil && (strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || strings.Contains(text, "-9223372036854775808")) {
			t.Fatalf("function %d answers %s", k, text)
		}
	})
}
