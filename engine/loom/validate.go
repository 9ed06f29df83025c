package loom

import (
	"fmt"
	"math"
	"strings"

	"fettle/fault"
)

// The most that one problem may hold.
const (
	mostRuns  = 4000
	mostParts = 8000
)

func wrong(where, format string, args ...any) *fault.Fault {
	return fault.New(fault.Invalid, format, args...).At(where)
}

// Validate checks the form of a problem: names, terminals, numbers. It says
// where the first slip is.
func (p *Problem) Validate() error {
	_, cable, err := p.rules()
	if err != nil {
		return err
	}
	return p.validate(cable)
}

func (p *Problem) validate(cable Cable) error {
	if runs := len(p.Wires) + len(p.Circuits); runs > mostRuns {
		return fault.New(fault.TooLarge, "%d wires and circuits, at most %d", runs, mostRuns).At("wires and circuits").WithHint("work one vehicle at a time")
	}
	if p.NominalV != 0 && p.NominalV != 6 && p.NominalV != 12 && p.NominalV != 24 {
		return wrong("nominal_v", "%g V is not 6, 12 or 24", p.NominalV)
	}
	if p.AmbientC < -60 || p.AmbientC >= cable.MaxC || math.IsNaN(p.AmbientC) || p.FlatBundle < 0 || p.FlatBundle > 1 {
		return wrong("ambient_c, flat_bundle", "the air is below %g °C, which the cable bears, and the factor from 0 to 1", cable.MaxC)
	}
	v := &validator{p: p, parts: map[string]*part{}, ids: map[string]string{}, sizes: p.sizes(cable)}
	for _, step := range []func() error{v.tables, v.names, v.sources, v.fuses, v.switches, v.others, v.places, func() error { return v.wires(cable) }, func() error { return v.circuits(cable) }, v.exclusives} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// part is what a name stands for: which terminals it has.
type part struct {
	where     string
	terminals []string // empty: any
	cavities  bool     // terminals end in < or >
}

type validator struct {
	p     *Problem
	parts map[string]*part
	ids   map[string]string
	sizes map[string]Conductor
}

// add notes a part; a name stands once.
func (v *validator) add(where, name string, terminals ...string) error {
	switch {
	case strings.TrimSpace(name) == "":
		return wrong(where, "it has no name")
	case strings.ContainsAny(name, ":=,\n"):
		return wrong(where, "a name has no colon, comma or equals sign: %q", name)
	case name == Body:
		return wrong(where, "the body is always there and need not be listed")
	}
	if first, ok := v.parts[name]; ok {
		return wrong(where, "%s is called %q too", first.where, name).WithHint("every part has a name of its own")
	}
	v.parts[name] = &part{where: where, terminals: terminals}
	return nil
}

func (v *validator) names() error {
	p := v.p
	if n := len(p.Batteries) + len(p.Alternators) + len(p.Fuses) + len(p.Switches) + len(p.Relays) + len(p.Joints) + len(p.Consumers); n > mostParts {
		return fault.New(fault.TooLarge, "%d parts, at most %d", n, mostParts)
	}
	v.parts[Body] = &part{where: Body}
	for i, b := range p.Batteries {
		if err := v.add(at("batteries", i), b.Name, "+", "-"); err != nil {
			return err
		}
	}
	for i, a := range p.Alternators {
		if err := v.add(at("alternators", i), a.Name, "B+", "B-"); err != nil {
			return err
		}
	}
	for i, f := range p.Fuses {
		if err := v.add(at("fuses", i), f.Name, "1", "2"); err != nil {
			return err
		}
	}
	for i, r := range p.Relays {
		terminals := []string{"30", "87", "85", "86"}
		if r.Break {
			terminals = append(terminals, "87a")
		}
		if err := v.add(at("relays", i), r.Name, terminals...); err != nil {
			return err
		}
	}
	for i := range p.Consumers {
		c := &p.Consumers[i]
		if err := v.add(at("consumers", i), c.Name, c.plus(), c.minus()); err != nil {
			return err
		}
	}
	for i, j := range p.Joints {
		if err := v.add(at("joints", i), j.Name); err != nil {
			return err
		}
		v.parts[j.Name].cavities = j.Kind == Connector
	}
	return nil
}

func at(list string, i int) string { return fmt.Sprintf("%s[%d]", list, i+1) }

// Bounds of ohms: below, a lug is better than any is; above, nothing of a vehicle
// worth an amp. They keep the net within what its factors can tell apart.
const (
	leastOhms = 1e-5
	mostOhms  = 1e6
	mostVolts = 100
	mostAmps  = 5000
)

// ohmic refuses ohms out of bounds; 0 is unsaid.
func ohmic(where string, ohms float64) error {
	if ohms != 0 && !(ohms >= leastOhms && ohms <= mostOhms) {
		return wrong(where, "ohms are from %g to %g, not %g", leastOhms, mostOhms, ohms).WithHint("leave them out where they are not known")
	}
	return nil
}

// positive refuses what is no number, or below zero.
func positive(where string, named map[string]float64) error {
	for _, name := range sorted(named) {
		if x := named[name]; !(x >= 0) || math.IsInf(x, 1) || x > 1e9 {
			return wrong(where, "%s is a number from 0, not %g", name, x)
		}
	}
	return nil
}

func (v *validator) sources() error {
	for i, b := range v.p.Batteries {
		if err := ohmic(at("batteries", i)+" "+b.Name, v.p.batteryOhms(b)); err != nil {
			return err
		}
		if b.Volts > mostVolts {
			return wrong(at("batteries", i)+" "+b.Name, "at most %d V", mostVolts)
		}
		if err := positive(at("batteries", i)+" "+b.Name, map[string]float64{"volts": b.Volts, "cranking_amps": b.CrankingAmps, "amp_hours": b.AmpHours, "reserve_minutes": b.ReserveMinutes, "drain_milliamps": b.DrainMilliamps, "self_percent_month": b.SelfPerMonth}); err != nil {
			return err
		}
	}
	for i, a := range v.p.Alternators {
		where := at("alternators", i) + " " + a.Name
		if err := positive(where, map[string]float64{"volts": a.Volts, "rated_amps": a.RatedAmps, "idle_amps": a.IdleAmps}); err != nil {
			return err
		}
		if err := ohmic(where, a.Ohms); err != nil {
			return err
		}
		if a.Volts > mostVolts || a.RatedAmps > mostAmps {
			return wrong(where, "at most %d V and %d A", mostVolts, mostAmps)
		}
		if a.RatedAmps == 0 {
			return wrong(where, "it has no rated amps").WithHint("they stand on its plate")
		}
	}
	if len(v.p.Wires) > 0 && len(v.p.Batteries) == 0 {
		return wrong("batteries", "there are wires and no battery: nothing feeds this net")
	}
	return nil
}
