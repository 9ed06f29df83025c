package loom

import (
	"fmt"
	"math"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/figure"
)

// Habits of the trade for readings.
const (
	contactOhms = 0.1 // that a reading end to end may be above the wire's own
	leastMegohm = 1.0 // to everything else, lamps and coils unplugged
	lampWatts   = 21.0
	limitAmps   = 5.0 // of the supply, or the fuse, of a first power-up
	restVolts   = 12.6
)

// Continuity is what a meter must read on one run before power.
type Continuity struct {
	ID      string          `json:"id"`
	From    string          `json:"from"`
	To      string          `json:"to"`
	OhmsMax float64         `json:"ohms_max"` // end to end
	MegMin  float64         `json:"megohm_min"`
	Read    []build.Metered `json:"read,omitempty"`
	Working figure.Figure   `json:"working"`
}

// continuityOf is the plan: each run end to end, then against all others at
// once. n runs take n readings each way, not one for each pair.
func continuityOf(b *build.Build, known sizes, cuts []Cut) []Continuity {
	var list []Continuity
	for _, c := range cuts {
		size := known[c.Section]
		wire := size.Ohms(c.CutMM/1000, 20)
		list = append(list, Continuity{ID: c.ID, From: c.From, To: c.To, OhmsMax: wire + contactOhms, MegMin: leastMegohm, Read: readings(b, c.Circuit, "continuity", "isolation"),
			Working: figure.Figure{Name: "resistance of " + c.ID, Text: fmt.Sprintf("%.2f Ω at most", wire+contactOhms), Formula: "mΩ/m × length at 20 °C + 0.1 Ω for contacts and leads",
				With: fmt.Sprintf("%.4g mΩ/m × %.2f m + %.1f Ω = %.3f Ω", size.MilliOhmPerM, c.CutMM/1000, contactOhms, wire+contactOhms),
				Inputs: []figure.Input{{Name: "size " + c.Section, Value: fmt.Sprintf("%.4g mΩ/m", size.MilliOhmPerM), Source: figure.Sheet},
					{Name: "contacts and leads", Value: "0.1 Ω", Source: figure.TradeDefault}}, Caution: "Battery off, lamps, coils and electronics unplugged."}})
	}
	return list
}

func readings(b *build.Build, circuit string, kinds ...string) []build.Metered {
	var list []build.Metered
	for _, m := range b.Loom.Metered {
		for _, k := range kinds {
			if m.Circuit == circuit && m.Kind == k {
				list = append(list, m)
			}
		}
	}
	return list
}

// PowerStep is a step of a first power-up: what is put in or switched on, and
// what the meters must then show.
type PowerStep struct {
	Number  int             `json:"number"`
	Circuit string          `json:"circuit,omitempty"`
	Fuse    string          `json:"fuse,omitempty"`
	Do      string          `json:"do"`
	Amps    float64         `json:"amps"`  // as it works
	Volts   float64         `json:"volts"` // at the far end
	SupplyA float64         `json:"supply_a"`
	SupplyV float64         `json:"supply_v"` // at the far end, through a supply limited to 5 A
	LampA   float64         `json:"lamp_a"`
	LampV   float64         `json:"lamp_v"` // across a 21 W lamp in series
	Read    []build.Metered `json:"read,omitempty"`
	Working figure.Figure   `json:"working"`
}

// firstPower is the order of a first power-up: everything off first, then one
// circuit after the other by its fuse.
func firstPower(b *build.Build, p loom.Problem, r loom.Result) []PowerStep {
	volts := restVolts * nominal(p) / 12
	drain := 0.0
	for _, x := range p.Batteries {
		drain += x.DrainMilliamps / 1000
	}
	list := []PowerStep{{Number: 1, Do: "all fuses out, all switches off, battery earth through the lamp: it stays dark", Amps: drain, SupplyA: drain, LampA: drain, Volts: volts, SupplyV: volts,
		Working: figure.Figure{Name: "everything off", Text: fmt.Sprintf("%.0f mA", 1000*drain), Formula: "what is drawn with everything off, as measured", With: fmt.Sprintf("%.0f mA", 1000*drain),
			Inputs: []figure.Input{{Name: "drain", Value: fmt.Sprintf("%.0f mA", 1000*drain), Source: figure.Measured}}, Caution: powerCaution}}}
	put := func(c loom.Circuit, one loom.Sized) {
		list = append(list, stepOf(b, len(list)+1, c, one, volts))
	}
	for _, f := range p.Fuses {
		for i, c := range p.Circuits {
			if c.Fuse == f.Name {
				put(c, r.Runs[i])
			}
		}
	}
	for i, c := range p.Circuits {
		if c.Fuse == "" && !c.Feed {
			put(c, r.Runs[i])
		}
	}
	return list
}

func nominal(p loom.Problem) float64 {
	if p.NominalV > 0 {
		return p.NominalV
	}
	return 12
}

const powerCaution = "No power near open fuel. A lamp that lights where it should be dark, or a wire that is warm: off first, then look. Where the law asks for a licensed electrician, one does this."

// stepOf works a step out: the load is taken as a resistance, the lamp by the
// law of filaments, amps ∝ V^0.55.
func stepOf(b *build.Build, number int, c loom.Circuit, one loom.Sized, volts float64) PowerStep {
	s := PowerStep{Number: number, Circuit: c.ID, Fuse: c.Fuse, Do: fmt.Sprintf("fuse %s in, %s on", c.Fuse, c.Name), Amps: c.Amps, Volts: volts - one.DropV, Read: readings(b, c.ID, "volts", "amps")}
	if c.Feed {
		s.Do = fmt.Sprintf("%s live, what it feeds off", c.Name)
		s.Amps, s.Volts = 0, volts
	}
	if c.Fuse == "" {
		s.Do = c.Name + " on"
	}
	if s.Amps == 0 {
		s.SupplyV = volts
		s.Working = figure.Figure{Name: "first power of " + c.ID, Text: "no current", Formula: "a feed carries nothing while all that it feeds is off", With: fmt.Sprintf("%.1f V, 0 A", volts), Caution: powerCaution}
		return s
	}
	ohms := volts / s.Amps
	s.SupplyA = math.Min(limitAmps, s.Amps)
	s.SupplyV = s.Volts * s.SupplyA / s.Amps
	s.LampV, s.LampA = inSeries(ohms, volts)
	s.Working = figure.Figure{Name: "first power of " + c.ID, Text: fmt.Sprintf("%.2g A, %.1f V", s.Amps, s.Volts), Formula: "load of the list; volts at rest − drop; limited: the load as a resistance; lamp: amps ∝ V^0.55, its volts and the load's add up",
		With: fmt.Sprintf("%.1f V − %.2f V = %.1f V; limited to %g A: %.1f V; through the lamp: %.2f A with %.1f V across the lamp", volts, one.DropV, s.Volts, limitAmps, s.SupplyV, s.LampA, s.LampV),
		Inputs: []figure.Input{{Name: "load", Value: fmt.Sprintf("%g A", c.Amps), Source: figure.Decided, Link: "circuit/" + c.ID}, {Name: "drop", Value: fmt.Sprintf("%.2f V", one.DropV), Source: figure.Worked},
			{Name: "lamp", Value: "21 W at 12 V", Source: figure.TradeDefault}, {Name: "limit", Value: fmt.Sprintf("%g A", limitAmps), Source: figure.TradeDefault}}, Caution: powerCaution}
	return s
}

// inSeries returns the volts across a 21 W lamp in series with a resistance, and
// the amps of both: the volts at which lamp and resistance carry the same.
func inSeries(ohms, volts float64) (lamp, amps float64) {
	low, high := 0.0, volts
	for range 60 {
		lamp = (low + high) / 2
		if lampAmps(lamp) > (volts-lamp)/ohms {
			high = lamp
		} else {
			low = lamp
		}
	}
	return lamp, lampAmps(lamp)
}

func lampAmps(volts float64) float64 { return lampWatts / 12 * math.Pow(volts/12, 0.55) }
