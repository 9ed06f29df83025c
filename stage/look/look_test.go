package look_test

import (
	"encoding/json"
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"fettle/build"
	"fettle/rates"
	"fettle/stage/look"
	"fettle/unit"
)

func facts(t *testing.T, b build.Build) string {
	t.Helper()
	data, err := json.Marshal(b)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// TestReckon_TheDemosLooks: areas are those of the panels under every look, the
// litres of the chosen one are those of the plan, and b stays as it was.
func TestReckon_TheDemosLooks(t *testing.T) {
	b := morning(t, unit.Day(2026, time.October, 6))
	before := facts(t, b)
	var panels unit.Area
	for _, p := range b.Panels {
		panels += p.Area()
	}
	for _, z := range b.Zones {
		panels += z.Extra
	}
	litres := map[build.LookID]map[build.ProductID]float64{
		"slack-water": {"base-limewash": 4.19, "base-slackwater": 2.23, "sealer-black": 1.16, "sealer-grey": 1.85, "satin-grey": 5.75},
		"low-water":   {"base-limewash": 4.19, "sealer-grey": 2.81, "satin-grey": 7.69},
	}
	accounts := map[build.LookID]look.Account{}
	for _, l := range b.Looks {
		a, err := look.Reckon(b, l, rates.Default())
		if err != nil {
			t.Fatalf("%s: %v", l.ID, err)
		}
		accounts[l.ID] = a
		if a.Area != panels {
			t.Errorf("%s covers %s, the panels and wheels have %s", l.ID, a.Area, panels)
		}
		got := map[build.ProductID]float64{}
		for _, p := range a.Paint {
			got[p.Product] = p.Volume.L()
		}
		for id, want := range litres[l.ID] {
			if math.Abs(got[id]-want) > 0.006 {
				t.Errorf("%s: %s %.3f l, want %.2f", l.ID, id, got[id], want)
			}
		}
		if want, some := litres[l.ID]; some && want["base-slackwater"] == 0 && got["base-slackwater"] != 0 {
			t.Errorf("%s still takes %.2f l of a base that it does not use", l.ID, got["base-slackwater"])
		}
	}
	if facts(t, b) != before {
		t.Error("reckoning a look altered the build")
	}
	if low, slack := accounts["low-water"], accounts["slack-water"]; low.Cost >= slack.Cost || low.Booth >= slack.Booth || slack.Buy >= slack.Cost {
		t.Errorf("low water %s %s, slack water %s %s of which %s to buy", b.Currency.Format(low.Cost), low.Booth,
			b.Currency.Format(slack.Cost), slack.Booth, b.Currency.Format(slack.Buy))
	}
}

// TestReckon_AnotherLine: raising the line gives the lower colour what the
// upper loses; the panels of the demo's look are those that its line divides.
func TestReckon_AnotherLine(t *testing.T) {
	b := morning(t, unit.Day(2026, time.October, 6))
	slack, err := look.Reckon(b, *b.Look("slack-water"), rates.Default())
	if err != nil {
		t.Fatal(err)
	}
	high, err := look.Reckon(b, *b.Look("high-water"), rates.Default())
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(look.Divide(&b, *b.Look("high-water")), *b.Look("high-water")); d != "" {
		t.Errorf("the line divides (-worked out +in the file):\n%s", d)
	}
	raised, err := look.Apply(b, *b.Look("high-water"))
	if err != nil {
		t.Fatal(err)
	}
	if back, err := look.Reckon(raised, *b.Look("slack-water"), rates.Default()); err != nil || back.Figure.With != slack.Figure.With {
		t.Errorf("the first look after another: %s, %v", back.Figure.With, err)
	}
	if d := cmp.Diff(look.Divide(&raised, *b.Look("high-water")), *b.Look("high-water")); d != "" {
		t.Errorf("divided once it is chosen (-worked out +in the file):\n%s", d)
	}
	of := func(a look.Account, id build.ZoneID) unit.Area {
		for _, z := range a.Zones {
			if z.Zone == id {
				return z.Area
			}
		}
		return 0
	}
	gained := of(high, "slackwater") - of(slack, "slackwater")
	if gained <= 0 || of(slack, "limewash")-of(high, "limewash") != gained {
		t.Errorf("lower gains %s, upper loses %s", gained, of(slack, "limewash")-of(high, "limewash"))
	}
}

// TestApply_RefusesWhatTheFactsRefuse.
func TestApply_RefusesWhatTheFactsRefuse(t *testing.T) {
	b := morning(t, unit.Day(2026, time.October, 6))
	for _, l := range []build.Look{{Name: "no ID"}, {ID: "x"}, {ID: "x", Name: "x", Zones: []build.LookZone{{Zone: "moon"}}}} {
		if _, err := look.Apply(b, l); err == nil {
			t.Errorf("%+v is taken", l)
		}
	}
	after, err := look.Apply(b, *b.Look("slack-water"))
	if err != nil || facts(t, after) != facts(t, b) {
		t.Errorf("the look that is chosen changes something: %v", err)
	}
}
