package coat_test

import (
	"strings"
	"testing"

	"fettle/engine/coat"
)

// TestVOC_OfTheTrade is the worked value of docs/engine/coat.md: 620 g of
// volatiles with 500 g of water in a litre with half a litre of water.
func TestVOC_OfTheTrade(t *testing.T) {
	v := coat.Volatile{Mass: 620, Water: 500}
	voc, err := v.VOC()
	good(t, err)
	near(t, "ready to spray", voc, 240, 1e-9)
	whole, err := v.WholeLitre()
	good(t, err)
	near(t, "whole litre", whole, 120, 1e-9)
	v.Mass, v.Exempt, v.ExemptVolume = 820, 200, 0.25 // exempt solvent leaves mass and volume alike
	voc, err = v.VOC()
	good(t, err)
	near(t, "with exempt", voc, 480, 1e-9)
}

// TestMultiStage_OfTheTrade is the worked value of docs/engine/coat.md.
func TestMultiStage_OfTheTrade(t *testing.T) {
	for _, tt := range []struct {
		mids []float64
		want float64
		base float64
	}{{nil, 480, 600}, {[]float64{600}, 505, 580}} {
		got, err := coat.MultiStage(tt.base, tt.mids, 420)
		good(t, err)
		near(t, "multi-stage", got, tt.want, 1e-9)
	}
	_, err := coat.MultiStage(600, []float64{-1}, 420)
	refused(t, "a stage below nothing", err, "g/l")
}

func TestVolatile_OfAMix(t *testing.T) {
	r := coat.Recipe{Components: []coat.Component{
		{Name: "base", Parts: 1, Volatile: coat.Volatile{Mass: 600}},
		{Name: "water", Parts: 1, Volatile: coat.Volatile{Mass: 1000, Water: 1000}}}}
	v, err := r.Volatile()
	good(t, err)
	voc, err := v.VOC()
	good(t, err)
	near(t, "water does not thin the figure", voc, 600, 1e-9)
	r.Components = append(r.Components, coat.Component{Name: "odd", Parts: 1, Volatile: coat.Volatile{Mass: 10, Water: 20}})
	_, err = r.Volatile()
	refused(t, "odd", err, "volatiles include water")
	_, err = coat.Volatile{Mass: 1000, Water: 1000}.VOC()
	refused(t, "all water", err, "water and exempt solvent alone")
}

func TestJudge_TakesTheStricter(t *testing.T) {
	table := coat.Limits{Title: "ours", Note: "owner's text", Rows: []coat.Limit{{Class: "primer", Most: 580}, {Class: "sealer", Most: 550}}}
	v, err := table.Judge(560, "primer", "sealer")
	good(t, err)
	if v.Limit.Class != "sealer" || v.Over != 10 || !strings.Contains(v.Words, "owner's text") {
		t.Errorf("verdict %+v, want 10 over the sealer's", v)
	}
	if v, err = table.Judge(560, "primer"); err != nil || v.Over != 0 {
		t.Errorf("primer %+v, %v, want within", v, err)
	}
	_, err = table.Judge(560, "lacquer")
	refused(t, "no such class", err, "not a class of the table")
	_, err = table.Judge(560)
	refused(t, "no class", err, "no class given")
	for _, l := range coat.ExampleLimits() {
		if !strings.Contains(l.Note, "owner's text") || !strings.Contains(l.Title, "example") || len(l.Rows) == 0 {
			t.Errorf("table %q does not say whose text it is", l.Title)
		}
	}
}
