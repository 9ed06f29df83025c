package loom

import (
	"context"
	"fmt"
	"math"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/figure"
)

// limitAmps is what a first power-up is limited to by the trade's habit, by the
// supply or by the fuse before everything.
const limitAmps = 5.0

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

// firstPower is the order of a first power-up: everything off first, then the
// feeds from the battery on, then one load after the other by its fuse.
func firstPower(ctx context.Context, b *build.Build, p loom.Problem, r loom.Result) []PowerStep {
	volts, _ := p.Resting()
	drain := 0.0
	for _, x := range p.Batteries {
		drain += x.DrainMilliamps / 1000
	}
	list := []PowerStep{{Number: 1, Do: "all fuses out, all switches off, battery earth through the lamp: it stays dark", Amps: drain, SupplyA: drain, LampA: drain, Volts: volts, SupplyV: volts,
		Working: figure.Figure{Name: "everything off", Text: fmt.Sprintf("%.0f mA", 1000*drain), Formula: "what is drawn with everything off, as measured", With: fmt.Sprintf("%.0f mA", 1000*drain),
			Inputs: []figure.Input{{Name: "drain", Value: fmt.Sprintf("%.0f mA", 1000*drain), Source: figure.Measured}}, Caution: powerCaution}}}
	in := map[string]bool{}
	for _, i := range powerOrder(b, p) {
		c := p.Circuits[i]
		s := stepOf(b, p, len(list)+1, c, r.Runs[i])
		s.Do = powerDo(b, c, in[c.Fuse])
		in[c.Fuse] = true
		list = append(list, s)
	}
	return append(list, netSteps(ctx, p, r, len(list))...)
}

// netSteps is a step for each position of each switch of the net, the others at
// rest, with what the net then draws. What cannot be solved is left out: its
// flaw says why.
func netSteps(ctx context.Context, p loom.Problem, r loom.Result, before int) []PowerStep {
	volts, _ := p.Resting()
	sections := map[string]string{}
	for _, x := range r.Runs {
		sections[x.ID] = x.Section
	}
	var list []PowerStep
	for _, sw := range p.Switches {
		for _, at := range sw.Positions[1:] {
			state := sw.Name + "=" + at.Name
			now, err := loom.Operate(ctx, p, loom.Setup{Switches: state, Sections: sections})
			if err != nil || !now.Holds {
				continue
			}
			s := PowerStep{Number: before + len(list) + 1, Do: fmt.Sprintf("%s to %s, all else at rest", sw.Name, at.Name), Amps: now.Battery, Volts: volts}
			for _, c := range now.Consumer {
				if math.Abs(c.Amps) > 0.01 {
					s.Volts = min(s.Volts, math.Abs(c.Volts))
				}
			}
			s.through(p)
			s.Working = figure.Figure{Name: "first power, " + state, Text: fmt.Sprintf("%.2g A, %.1f V", s.Amps, s.Volts), Formula: "the net solved in this state; volts are the least that any consumer has", With: powerWords(s),
				Inputs: powerInputs(figure.Input{Name: "net", Value: state, Source: figure.Worked}), Caution: powerCaution}
			list = append(list, s)
		}
	}
	return list
}

// through reckons what a limited supply, or a lamp in series, makes of a step:
// what is fed is taken as a resistance.
func (s *PowerStep) through(p loom.Problem) {
	volts, called := p.Resting()
	if s.Amps <= 0 {
		s.SupplyV = volts
		return
	}
	s.SupplyA = min(limitAmps, s.Amps)
	s.SupplyV = s.Volts * s.SupplyA / s.Amps
	s.LampV, s.LampA = loom.ThroughLamp(volts/s.Amps, volts, called)
}

func powerWords(s PowerStep) string {
	return fmt.Sprintf("limited to %g A: %.2g A, %.1f V; through the lamp: %.2f A with %.1f V across the lamp", limitAmps, s.SupplyA, s.SupplyV, s.LampA, s.LampV)
}

func powerInputs(first ...figure.Input) []figure.Input {
	return append(first, figure.Input{Name: "lamp", Value: "21 W, made for the battery", Source: figure.TradeDefault}, figure.Input{Name: "limit", Value: fmt.Sprintf("%g A", limitAmps), Source: figure.TradeDefault})
}

const powerCaution = "No power near open fuel. A lamp that lights where it should be dark, or a wire that is warm: off first, then look. Where the law asks for a licensed electrician, one does this."

// stepOf works a step out: the load is taken as a resistance, the lamp by the
// law of filaments, amps ∝ V^0.55.
func stepOf(b *build.Build, p loom.Problem, number int, c loom.Circuit, one loom.Sized) PowerStep {
	volts, _ := p.Resting()
	s := PowerStep{Number: number, Circuit: c.ID, Fuse: c.Fuse, Amps: c.Amps, Volts: volts - one.DropV, Read: readings(b, c.ID, "volts", "amps")}
	if c.Feed {
		s.Amps, s.Volts = 0, volts
	}
	if s.Amps == 0 {
		s.SupplyV = volts
		s.Working = figure.Figure{Name: "first power of " + c.ID, Text: "no current", Formula: "a feed carries nothing while all that it feeds is off", With: fmt.Sprintf("%.1f V, 0 A", volts), Caution: powerCaution}
		return s
	}
	s.through(p)
	s.Working = figure.Figure{Name: "first power of " + c.ID, Text: fmt.Sprintf("%.2g A, %.1f V", s.Amps, s.Volts), Formula: "load of the list; volts at rest − drop; limited: the load as a resistance; lamp: amps ∝ V^0.55, its volts and the load's add up",
		With:   fmt.Sprintf("%.1f V − %.2f V = %.1f V; ", volts, one.DropV, s.Volts) + powerWords(s),
		Inputs: powerInputs(figure.Input{Name: "load", Value: fmt.Sprintf("%g A", c.Amps), Source: figure.Decided, Link: "loom/circuit/" + c.ID}, figure.Input{Name: "drop", Value: fmt.Sprintf("%.2f V", one.DropV), Source: figure.Worked}), Caution: powerCaution}
	return s
}
