package loom

import (
	"strings"

	"fettle/fault"
)

// or returns a value, or what stands for it where nothing was said.
func or(v, unsaid float64) float64 {
	if v != 0 {
		return v
	}
	return unsaid
}

// nominal returns 6, 12 or 24 V.
func (p *Problem) nominal() float64 { return or(p.NominalV, 12) }

// scale returns nominal ÷ 12: limits and batteries are told of 12 V.
func (p *Problem) scale() float64 { return p.nominal() / 12 }

func (p *Problem) batteryVolts(b Battery) float64 { return or(b.Volts, 12.6*p.scale()) }

// batteryOhms: (12.6 − 7.2) ÷ cranking amps, 500 A where nothing is said.
func (p *Problem) batteryOhms(b Battery) float64 {
	return or(b.Ohms, 5.4*p.scale()/or(b.CrankingAmps, 500))
}

func (p *Problem) alternatorVolts(a Alternator) float64 { return or(a.Volts, 14.2*p.scale()) }

func (p *Problem) fuseOhms(f Fuse, hot bool) float64 {
	if f.Ohms > 0 {
		return f.Ohms
	}
	c, _ := p.curve(f.Type)
	return c.Ohms(f.Amps, hot)
}

// curve finds a fuse type by name; the owner's own come first.
func (p *Problem) curve(name string) (Curve, bool) {
	if name == "" {
		name = Blade
	}
	for _, list := range [][]Curve{p.Types, Curves()} {
		for _, c := range list {
			if c.Name == name {
				return c, true
			}
		}
	}
	return Curve{}, false
}

// cable finds a cable by name; the owner's own come first.
func (p *Problem) cable(name string) (Cable, bool) {
	for _, list := range [][]Cable{p.Own, Cables()} {
		for _, c := range list {
			if c.Name == name {
				return c, true
			}
		}
	}
	return Cable{}, false
}

// rules finds the rule set and the cable that sections are taken from.
func (p *Problem) rules() (Rules, Cable, error) {
	name := p.Rules
	if name == "" {
		name = InFull
	}
	for _, r := range RuleSets() {
		if r.Name != name {
			continue
		}
		if p.Cable != "" {
			r.Cable = p.Cable
		}
		if p.FlatBundle > 0 {
			r.FlatBundle = p.FlatBundle
		}
		c, ok := p.cable(r.Cable)
		if !ok {
			return r, c, fault.New(fault.Invalid, "there is no cable called %q", r.Cable).At("cable").WithHint("there are " + strings.Join(p.cableNames(), ", "))
		}
		return r, c, nil
	}
	return Rules{}, Cable{}, fault.New(fault.Invalid, "there is no rule set called %q", name).At("rules").WithHint("there are " + InFull + " and " + ByList)
}

func (p *Problem) cableNames() []string {
	var names []string
	for _, list := range [][]Cable{p.Own, Cables()} {
		for _, c := range list {
			names = append(names, c.Name)
		}
	}
	return names
}

func (c *Consumer) plus() string {
	if c.Plus != "" {
		return c.Plus
	}
	return "+"
}

func (c *Consumer) minus() string {
	if c.Minus != "" {
		return c.Minus
	}
	return "-"
}

// rated returns the volts and amps of a consumer's own label.
func (p *Problem) rated(c *Consumer) (volts, amps float64) {
	volts = or(c.Volts, 13.5*p.scale())
	if c.Amps > 0 {
		return volts, c.Amps
	}
	return volts, c.Watts / volts
}

// inrush returns the peak as a multiple of the rated amps, and the seconds that
// it lasts (a motor) or falls to twice the rated amps in (a filament).
func (c *Consumer) inrush() (factor, seconds float64) {
	switch c.Behaviour {
	case Filament:
		return or(c.InrushFactor, 10), or(c.InrushSeconds, 0.004)
	case Motor:
		return or(c.InrushFactor, 6), or(c.InrushSeconds, 0.2)
	}
	return or(c.InrushFactor, 1), c.InrushSeconds
}

// ambient returns the air that a run meets at its warmest.
func (p *Problem) ambient(zone string) float64 {
	for _, z := range p.Zones {
		if z.Name == zone {
			return z.AmbientC
		}
	}
	return or(p.AmbientC, 40)
}
