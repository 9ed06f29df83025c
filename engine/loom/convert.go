package loom

import "fmt"

// Advice is what a change asks of one part.
type Advice struct {
	Part    string `json:"part"`
	Verdict string `json:"verdict"` // "stays", "change", "resistor", "look"
	Says    string `json:"says"`
}

// After a change to 12 V: charging volts, and the volts that 6 V parts run at.
const (
	charging12 = 13.8
	running6   = 6.8
)

// To12V tells what a change of a 6 V loom to 12 V asks of its parts. The same
// watts take half the amps, so wire that was sound at 6 V is larger than it need
// be and may stay; what turns volts into work is made for one voltage.
func To12V(p Problem) []Advice {
	if p.nominal() != 6 {
		return []Advice{{"loom", "look", fmt.Sprintf("it is a %g V loom: there is nothing to change", p.nominal())}}
	}
	var list []Advice
	for i := range p.Consumers {
		c := &p.Consumers[i]
		_, amps := p.rated(c)
		list = append(list, Advice{c.Name, "change", consumerTo12(c)})
		if c.Use == Starter {
			list[len(list)-1] = Advice{c.Name, "stays", "a 6 V starter mostly bears short cranks on 12 V: seconds, then rest; its solenoid is changed"}
		} else if c.Behaviour == "" || c.Behaviour == Resistance {
			list[len(list)-1] = Advice{c.Name, "resistor", resistor(amps)}
		}
	}
	for _, f := range p.Fuses {
		list = append(list, Advice{f.Name, "look", fmt.Sprintf("loads of the same watts take half the amps: %g A may come down to about %g A", f.Amps, f.Amps/2)})
	}
	for _, r := range p.Relays {
		list = append(list, Advice{r.Name, "change", "a coil for 12 V"})
	}
	for _, a := range p.Alternators {
		list = append(list, Advice{a.Name, "change", "generator and regulator for 12 V, of the car's polarity"})
	}
	for _, b := range p.Batteries {
		list = append(list, Advice{b.Name, "change", "12 V, earthed at the same terminal unless all that is polarised is turned too"})
	}
	for _, w := range p.Wires {
		list = append(list, Advice{w.ID, "stays", "if its insulation is sound: half the amps, a quarter of the heat"})
	}
	for _, c := range p.Circuits {
		list = append(list, Advice{c.ID, "stays", fmt.Sprintf("if its insulation is sound: %.3g A become %.3g A", c.Amps, c.Amps/2)})
	}
	return list
}

func consumerTo12(c *Consumer) string {
	switch c.Behaviour {
	case Filament:
		return "a 12 V bulb of the same watts"
	case Motor:
		return "a 12 V motor: a resistor does not suit a load that varies"
	}
	return "made for one voltage: a 12 V one, or a converter of its watts"
}

// resistor sizes a resistor in series for a steady load.
func resistor(amps float64) string {
	drop := charging12 - running6
	return fmt.Sprintf("a steady load may keep a resistor: (%g V − %g V) ÷ %.3g A = %.2f Ω, %.0f W, hot: in the air, away from trim", charging12, running6, amps, drop/amps, drop*amps)
}
