package moments

import (
	"fmt"
	"math"
	"net/url"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/place/knockon"
	"fettle/internal/place/paint"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/takeoff"
	"fettle/unit"
)

// decided returns the new check whose ID begins so, or nothing.
func decided(x trial, id string) takeoff.Check {
	for _, c := range x.KnockOn.Decide {
		if strings.HasPrefix(c.ID, id) {
			return c
		}
	}
	return takeoff.Check{}
}

// TestWrongUndercoat: the painter mixes black for the roof with the lower body;
// before it is kept, the slip says what it would cost and what belongs there.
func TestWrongUndercoat(t *testing.T) {
	s := morning(t, "2027-01-07")
	day := unit.Day(2027, 1, 7)
	x := s.try(s.changes(&build.PourMix{Pour: build.Pour{ID: "M90", Product: "sealer-black", Panels: []build.PanelID{"P01", "P02", "P15", "P41"}, Coats: 1,
		Parts: []build.Poured{{Part: 0, Tin: "N14", Volume: 300_000}, {Part: 1, Volume: 100_000}, {Part: 2, Volume: 100_000}}, Metal: 18, Air: 20, RH: 42, At: day.At(8, 10), By: "PT"}}))
	c := decided(x, "undercoat/limewash")
	for _, say := range []string{"P01, P02", "6 coats, not 3", "8.1 l instead of 4.2 l", "2.5 h", "1.85 l for 15.56 m²", "1.16 l for 9.00 m²"} {
		if !strings.Contains(c.Says+c.Do, say) {
			t.Errorf("%q, %q: want %q", c.Says, c.Do, say)
		}
	}
}

// TestColdBooth_FiveLostDays: the booth stays cold for a week, the base is
// scuffed and laid again: 6.4 l, 9 h, five days.
func TestColdBooth_FiveLostDays(t *testing.T) {
	s := morning(t, "2027-01-06")
	redo := build.Redo{ID: "R1", Zones: []build.ZoneID{"limewash", "jamb", "wheels", "slackwater"}, Why: "clear did not go on in time", Days: 5, Task: "T18",
		Coats: []build.RedoCoats{{Product: "base-limewash", Coats: 3}, {Product: "base-slackwater", Coats: 3}}, Work: []build.Leg{{Trade: "PT", Hours: 9 * unit.Hour}}}
	x := s.try(s.changes(&build.RedoPaint{Redo: redo}))
	if lost := workdays(x.Before.Dates.Plain, x.After.Dates.Plain); lost < 5 || lost > 7 {
		t.Errorf("%s to %s: %d working days, want the five and the hours", x.Before.Dates.Plain.Short(), x.After.Dates.Plain.Short(), lost)
	}
	// Litres are figures: the two bases grow by 4.2 and 2.2.
	for i, want := range map[int]string{4: "8.38 l", 5: "4.46 l"} {
		if got := x.After.Litres[i].Text; got != want {
			t.Errorf("%s: %s, want %s", x.After.Litres[i].Name, got, want)
		}
	}
	var said []string
	for _, r := range x.KnockOn.Rows {
		if r.Group == "paint" {
			said = append(said, r.Name+" "+r.Change)
		}
	}
	for _, want := range []string{"Limewash base, ready to spray +4.19 l", "Slackwater base, ready to spray +2.23 l", "tins of Limewash base to buy +3 tins"} {
		if !slices.Contains(said, want) {
			t.Errorf("the slip says %q, want %q", said, want)
		}
	}
}

// TestTwoBatches: the given Limewash came in two batches; the check stands until
// they are boxed.
func TestTwoBatches(t *testing.T) {
	s := morning(t, "2026-10-06")
	x := s.try(s.changes(&build.BoxTins{Tins: []build.TinID{"N05", "N06", "N07"}}))
	settled := ""
	for _, c := range x.KnockOn.Settled {
		settled += c.ID + " "
	}
	if !strings.Contains(settled, "box/base-limewash") {
		t.Errorf("settled: %s", settled)
	}
	equal(t, "days moved by boxing tins", x.After.Dates.Plain-x.Before.Dates.Plain, 0)
}

// painter serves the places of paint and of the slip to the painter.
func painter(t *testing.T) *placetest.Shop {
	t.Helper()
	s := placetest.Open(t, unit.Day(2027, 1, 7), func(d desk.Desk) []web.Place { return []web.Place{paint.Place(d), knockon.Place(d)} })
	s.Person.Code = "PT"
	return s
}

// TestMixForFourDoors: the Slackwater tin, four loose doors, metal of 18 °C: what
// to pour, what the tin holds after, and whether the batch does the body too.
func TestMixForFourDoors(t *testing.T) {
	s := painter(t)
	doors := []string{"panel", "P11", "panel", "P12", "panel", "P58", "panel", "P59", "coats", "3", "metal", "18"}
	card := decode[struct {
		Need struct {
			Area    float64 `json:"area_m2"`
			Sprayed float64 `json:"sprayed_l"`
			Purge   float64 `json:"purge_l"`
			Volume  float64 `json:"volume_l"`
		}
		Pour []struct {
			Ml, G float64
			Grade string
			Scale float64 `json:"scale_g"`
		}
		Job   float64 `json:"job_l"`
		Still float64 `json:"still_l"`
	}](t, []byte(s.Get("paint/mix/base-slackwater?"+query(doors...)+"&as=json").Body))
	equal(t, "m²", card.Need.Area, 1.72)
	for what, v := range map[string][2]float64{"on metal": {card.Need.Sprayed, 0.37}, "purge": {card.Need.Purge, 0.20}, "ready to spray": {card.Need.Volume, 0.57},
		"whole job": {card.Job, 1.24}, "still": {card.Still, 0.92}} {
		equal(t, what+", l", math.Round(100*v[0])/100, v[1])
	}
	if len(card.Pour) != 2 {
		t.Fatalf("card %+v", card)
	}
	base, reducer := card.Pour[0], card.Pour[1]
	equal(t, "ml of colour", base.Ml, 316)
	equal(t, "ml of reducer", reducer.Ml, 253)
	equal(t, "scale after both, g", reducer.Scale, base.G+reducer.G)
	equal(t, "grade for 18 °C", reducer.Grade, "fast")
	page := s.Get("paint/mix/base-slackwater?" + query(doors...)).Body
	if !strings.Contains(page, "Will the same batch do the rest?") {
		t.Error("it does not ask whether the same batch will do the body")
	}

	before := s.Build(t)
	got := s.Post("paint/mix/base-slackwater", append(doors, "air", "20", "rh", "42", "scale-1", "316", "tin-1", "N08", "scale-2", "536", "tin-2", "N10")...)
	equal(t, "kept at", got.See, "/b/pedlar/paint/pour/M04")
	after := s.Build(t)
	equal(t, "left in the tin", after.Tin("N08").Left, before.Tin("N08").Left-316_000)
	_, view := s.Plan(t)
	s.Post("undo", "undoes", fmt.Sprintf("%d-%d", view.Seq, view.Seq))
	back := s.Build(t)
	equal(t, "put back: left in the tin", back.Tin("N08").Left, before.Tin("N08").Left)
}

// query writes pairs as the query of an address.
func query(pairs ...string) string {
	v := url.Values{}
	for i := 0; i+1 < len(pairs); i += 2 {
		v.Add(pairs[i], pairs[i+1])
	}
	return v.Encode()
}
