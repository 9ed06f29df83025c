package coat_test

import (
	"math"
	"strings"
	"testing"

	"fettle/engine/coat"
)

// TestMaySpray_ColdBooth: no, by margin and by metal; at 16 °C the
// margin is 4.1 °C and it may go on.
func TestMaySpray_ColdBooth(t *testing.T) {
	warming, err := coat.FitWarming([]coat.WarmUp{{From: 10, To: 16, Air: 15, Minutes: 120}})
	good(t, err)
	c := coat.Conditions{Air: 17, RH: 72, Metal: 13.5, Steady: coat.Good, Filters: coat.Good, Clearance: coat.Good, Breathing: coat.Good, Warming: warming}
	a := coat.Asks{Product: "clear", TwoPack: true}
	g, err := coat.MaySpray(c, a)
	good(t, err)
	against := g.Against()
	if g.Go || len(against) != 2 {
		t.Fatalf("gate %+v, want two reasons against", g)
	}
	dew, metal := against[0], against[1]
	if dew.Figure.Text != "1.6 °C" || dew.Figure.With != "13.5 − 11.9 = 1.6 °C, at least 3" || len(dew.Figure.Inputs) != 3 {
		t.Errorf("margin %+v", dew.Figure)
	}
	if !strings.HasPrefix(dew.Fix, "warm the metal to 16 °C: the margin is then 4.1 °C") || !strings.Contains(metal.Fix, "takes about 50 min") {
		t.Errorf("fixes %q, %q", dew.Fix, metal.Fix)
	}
	if len(g.Cautions) != 4 {
		t.Errorf("cautions %q", g.Cautions)
	}
	c.Metal = 16
	if g, err = coat.MaySpray(c, a); err != nil || !g.Go || len(g.Against()) != 0 || g.Reasons[0].Figure.Text != "4.1 °C" {
		t.Errorf("at 16 °C: %+v, %v", g, err)
	}
}

func TestMaySpray_EveryReason(t *testing.T) {
	fine := coat.Conditions{Air: 20, RH: 50, Metal: 20, Steady: coat.Good, Filters: coat.Good, Clearance: coat.Good, Breathing: coat.Good}
	asks := coat.Asks{TwoPack: true, LowestMetal: 18, HighestRH: 70, AirFrom: 18, AirTo: 28}
	for _, tt := range []struct {
		name, fix string
		do        func(*coat.Conditions)
	}{
		{"", "", func(*coat.Conditions) {}},
		{"", "", func(c *coat.Conditions) { c.Air, c.Metal = 18, 18 }}, // the bounds themselves will do
		{"", "", func(c *coat.Conditions) { c.RH, c.Metal = 70, 24 }},
		{"metal warm enough", "no warm-up on record", func(c *coat.Conditions) { c.Metal = 17 }},
		{"air dry enough", "warm it to 20.3 °C", func(c *coat.Conditions) { c.RH, c.Metal = 71, 24 }},
		{"air in the product's range", "18 to 28", func(c *coat.Conditions) { c.Air, c.Metal = 29, 24 }},
		{"metal not getting colder", "falling metal", func(c *coat.Conditions) { c.Steady = coat.Bad }},
		{"filters within their limits", "gauge", func(c *coat.Conditions) { c.Filters = coat.NotChecked }},
		{"clearance time measured and posted", "smoke", func(c *coat.Conditions) { c.Clearance = coat.Bad }},
		{"air-fed breathing at hand and tested", "filter mask", func(c *coat.Conditions) { c.Breathing = coat.NotChecked }},
	} {
		c := fine
		tt.do(&c)
		g, err := coat.MaySpray(c, asks)
		good(t, err)
		against := g.Against()
		if tt.name == "" {
			if !g.Go || len(g.Reasons) != 8 {
				t.Errorf("all in order: %+v", g)
			}
			continue
		}
		if g.Go || len(against) != 1 || against[0].Name != tt.name || !strings.Contains(against[0].Fix, tt.fix) {
			t.Errorf("%s: against %+v, want that alone with %q", tt.name, against, tt.fix)
		}
	}
}

// TestMaySpray_JustUnder: a margin of 2.96 °C is not shown as 3.0.
func TestMaySpray_JustUnder(t *testing.T) {
	dew, err := coat.DewPoint(17, 72)
	good(t, err)
	g, err := coat.MaySpray(coat.Conditions{Air: 17, RH: 72, Metal: dew + 2.96}, coat.Asks{})
	if good(t, err); g.Reasons[0].OK || g.Reasons[0].Figure.Text != "2.96 °C" {
		t.Errorf("margin %+v", g.Reasons[0])
	}
}

func TestMaySpray_NotReadAndMistyped(t *testing.T) {
	none := math.NaN()
	g, err := coat.MaySpray(coat.Conditions{Air: none, RH: none, Metal: none}, coat.Asks{TwoPack: true, HighestRH: 70, AirFrom: 18, AirTo: 28})
	if good(t, err); g.Go || len(g.Against()) != 8 {
		t.Errorf("nothing read: %d against, want 8", len(g.Against()))
	}
	_, err = coat.MaySpray(coat.Conditions{Air: 20, RH: 4500, Metal: 20}, coat.Asks{})
	refused(t, "typing", err, "was 45 % meant?")
	_, err = coat.MaySpray(coat.Conditions{Air: none, RH: 45, Metal: 500}, coat.Asks{})
	refused(t, "red hot", err, "read the metal")
}
