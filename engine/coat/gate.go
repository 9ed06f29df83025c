package coat

import (
	"fmt"
	"math"

	"fettle/figure"
)

// Checked is what somebody found on looking.
type Checked uint8

// The answers. What nobody looked at counts against spraying.
const (
	NotChecked Checked = iota
	Good
	Bad
)

// Conditions are the readings before spraying; NaN where none was taken.
type Conditions struct {
	Air, RH, Metal float64 // °C, %, °C where the metal is coldest
	Steady         Checked // the metal is not getting colder
	Filters        Checked // in their limits, by the gauge
	Clearance      Checked // the clearance time is measured and posted
	Breathing      Checked // air-fed breathing is at hand and tested; asked of two-pack only
	WarmAir        float64 // °C of the booth while it warms, for the hint; 0 takes the air as it is
	Warming        Warming // the booth's own record, for the hint
}

// Asks is what a product asks of the air and the metal, by its sheet; 0 where
// the sheet does not say.
type Asks struct {
	Product        string
	TwoPack        bool
	LowestMetal    float64 // °C; two-pack never under 16
	HighestRH      float64 // %
	AirFrom, AirTo float64 // °C
}

// Reason is one thing that speaks for or against spraying now.
type Reason struct {
	Name   string
	OK     bool
	Figure figure.Figure
	Fix    string // what would help; empty where nothing is wrong
}

// Gate is the answer to "may I spray?".
type Gate struct {
	Go       bool // every reason is in order
	Reasons  []Reason
	Cautions []string
}

// MaySpray weighs every reason; it never stops at the first. A reading that
// cannot be right is refused, a missing one is a reason against.
func MaySpray(c Conditions, a Asks) (Gate, error) {
	if a.TwoPack {
		a.LowestMetal = max(a.LowestMetal, ScaleFrom)
	}
	if err := refuseReadings(c); err != nil {
		return Gate{}, err
	}
	g := Gate{Go: true, Cautions: Cautions(a.TwoPack)}
	g.Reasons = append(g.Reasons, dewReason(c, a))
	if a.LowestMetal > 0 {
		g.Reasons = append(g.Reasons, metalReason(c, a))
	}
	if a.HighestRH > 0 {
		g.Reasons = append(g.Reasons, rhReason(c, a))
	}
	if a.AirTo > a.AirFrom {
		g.Reasons = append(g.Reasons, airReason(c, a))
	}
	g.Reasons = append(g.Reasons,
		looked("metal not getting colder", c.Steady, "wait until it holds: falling metal meets the dew point while the film is wet"),
		looked("filters within their limits", c.Filters, "read the gauge; change the filters"),
		looked("clearance time measured and posted", c.Clearance, "measure it with smoke and post it on the door"))
	if a.TwoPack {
		g.Reasons = append(g.Reasons, looked("air-fed breathing at hand and tested", c.Breathing, "test it: a filter mask is not enough"))
	}
	for _, r := range g.Reasons {
		g.Go = g.Go && r.OK
	}
	return g, nil
}

// refuseReadings lets missing readings pass and no others.
func refuseReadings(c Conditions) error {
	air, rh, metal := c.Air, c.RH, c.Metal
	if !math.IsNaN(air) {
		if err := refuseAir(air); err != nil {
			return err
		}
	}
	if !math.IsNaN(rh) {
		if err := refuseRH(rh); err != nil {
			return err
		}
	}
	if math.IsNaN(metal) {
		return nil
	}
	if math.IsNaN(air) {
		air = metal
	}
	return refuseMetal(metal, air)
}

// reading is an input that somebody took, or nobody.
func reading(name string, v float64, unit string) figure.Input {
	in := figure.Input{Name: name, Value: fmt.Sprintf("%g %s", v, unit), Source: figure.Measured}
	if math.IsNaN(v) {
		in.Value = "not read"
	}
	return in
}

func notRead(r Reason, what string) Reason {
	r.OK, r.Figure.Text, r.Fix = false, "not known", "read "+what
	r.Figure.With = r.Figure.Formula
	return r
}

func dewReason(c Conditions, a Asks) Reason {
	r := Reason{Name: "metal over the dew point", Figure: figure.Figure{
		Name: "margin over the dew point", Formula: "metal − dew point of the air, at least 3 °C", Caution: CautionSheet,
		Inputs: []figure.Input{reading("metal", c.Metal, "°C"), reading("air", c.Air, "°C"), reading("humidity", c.RH, "%")}}}
	dew, err := DewPoint(c.Air, c.RH)
	if err != nil || math.IsNaN(c.Metal) {
		return notRead(r, "air, humidity and metal")
	}
	margin := c.Metal - dew
	r.OK = margin >= DewMargin
	digits := 1
	if !r.OK && margin > DewMargin-0.05 {
		digits = 2 // 2.96 is not to be read as 3.0
	}
	r.Figure.Text = fmt.Sprintf("%.*f °C", digits, margin)
	r.Figure.With = fmt.Sprintf("%g − %.*f = %.*f °C, at least %g", c.Metal, digits, dew, digits, margin, DewMargin)
	if !r.OK {
		aim := warmTo(dew, a)
		if margin <= 0 {
			r.Fix = "water stands on it: dry it, and "
		}
		r.Fix += fmt.Sprintf("warm the metal to %g °C: the margin is then %.1f °C, if the heater adds no water to the air%s", aim, aim-dew, c.warm(aim))
	}
	return r
}

// warmTo is the °C, in halves, at which metal keeps its margin and is warm enough.
func warmTo(dew float64, a Asks) float64 { return math.Ceil(2*max(dew+DewMargin, a.LowestMetal)) / 2 }

// Warm returns the °C to which the metal must come before a product may go on
// it, the margin over the dew point and the least of the product both kept, and
// how long that takes by the booth's own record. The air is taken to hold no
// more water when it is warmed.
func (c Conditions) Warm(a Asks) (float64, Reach, error) {
	dew, err := DewPoint(c.Air, c.RH)
	if err != nil {
		return 0, Reach{}, err
	}
	if a.TwoPack {
		a.LowestMetal = max(a.LowestMetal, ScaleFrom)
	}
	aim, air := warmTo(dew, a), c.WarmAir
	if air == 0 {
		air = c.Air
	}
	reach, err := c.Warming.Reach(c.Metal, aim, air)
	return aim, reach, err
}

func metalReason(c Conditions, a Asks) Reason {
	r := Reason{Name: "metal warm enough", Figure: figure.Figure{
		Name: "metal", Formula: "metal, at least what the product asks", Caution: CautionSheet,
		Inputs: []figure.Input{reading("metal", c.Metal, "°C"), {Name: "lowest metal", Value: fmt.Sprintf("%g °C", a.LowestMetal), Source: figure.Sheet}}}}
	if a.TwoPack && a.LowestMetal == ScaleFrom {
		r.Figure.Inputs[1].Source, r.Figure.Inputs[1].Note = figure.TradeDefault, "two-pack may never cure on colder metal"
	}
	if math.IsNaN(c.Metal) {
		return notRead(r, "the metal where it is coldest")
	}
	r.OK = c.Metal >= a.LowestMetal
	r.Figure.Text, r.Figure.With = fmt.Sprintf("%g °C", c.Metal), fmt.Sprintf("%g °C, at least %g", c.Metal, a.LowestMetal)
	if !r.OK {
		r.Fix = fmt.Sprintf("warm the metal to %g °C%s", a.LowestMetal, c.warm(a.LowestMetal))
	}
	return r
}

// warm says how long warming takes by the booth's own record.
func (c Conditions) warm(aim float64) string {
	air := c.WarmAir
	if air == 0 {
		air = c.Air
	}
	reach, err := c.Warming.Reach(c.Metal, aim, air)
	if err != nil {
		return ""
	}
	return "; " + reach.Words
}

func rhReason(c Conditions, a Asks) Reason {
	r := Reason{Name: "air dry enough", Figure: figure.Figure{
		Name: "humidity", Formula: "relative humidity, at most what the product bears", Caution: CautionSheet,
		Inputs: []figure.Input{reading("humidity", c.RH, "%"), {Name: "highest humidity", Value: fmt.Sprintf("%g %%", a.HighestRH), Source: figure.Sheet}}}}
	if math.IsNaN(c.RH) {
		return notRead(r, "the hygrometer")
	}
	r.OK = c.RH <= a.HighestRH
	r.Figure.Text, r.Figure.With = fmt.Sprintf("%g %%", c.RH), fmt.Sprintf("%g %%, at most %g", c.RH, a.HighestRH)
	if !r.OK {
		r.Fix = "dry the air"
		if !math.IsNaN(c.Air) {
			g := math.Log(saturation(c.Air) * c.RH / a.HighestRH)
			r.Fix += fmt.Sprintf(", or warm it to %.1f °C with a heater that adds no water", math.Ceil(10*magnusB*g/(magnusA-g))/10)
		}
	}
	return r
}

func airReason(c Conditions, a Asks) Reason {
	r := Reason{Name: "air in the product's range", Figure: figure.Figure{
		Name: "air", Formula: "air, in the range the product asks", Caution: CautionSheet,
		Inputs: []figure.Input{reading("air", c.Air, "°C"), {Name: "range", Value: fmt.Sprintf("%g to %g °C", a.AirFrom, a.AirTo), Source: figure.Sheet}}}}
	if math.IsNaN(c.Air) {
		return notRead(r, "the air")
	}
	r.OK = c.Air >= a.AirFrom && c.Air <= a.AirTo
	r.Figure.Text, r.Figure.With = fmt.Sprintf("%g °C", c.Air), fmt.Sprintf("%g °C, from %g to %g", c.Air, a.AirFrom, a.AirTo)
	if !r.OK {
		r.Fix = fmt.Sprintf("bring the air to %g to %g °C", a.AirFrom, a.AirTo)
	}
	return r
}

func looked(name string, c Checked, fix string) Reason {
	r := Reason{Name: name, OK: c == Good, Figure: figure.Figure{Name: name, Formula: "somebody looked", Text: [...]string{"not looked at", "in order", "not in order"}[c%3]}}
	r.Figure.With = r.Figure.Text
	if !r.OK {
		r.Fix = fix
	}
	return r
}

// Against returns the reasons that speak against spraying.
func (g Gate) Against() []Reason {
	var list []Reason
	for _, r := range g.Reasons {
		if !r.OK {
			list = append(list, r)
		}
	}
	return list
}
