package loom

import (
	"fmt"
	"math"
)

// Filaments: amps ∝ volts^0.55, and no less resistance than a tenth of the hot.
const (
	warm      = 0.55
	coldShare = 0.1
)

// stillCold is the share of the rated volts below which the resistance is that
// tenth.
var stillCold = math.Pow(coldShare, 1/(1-warm))

// takes returns the amps that a load takes at volts, with their sign.
func (o *operator) takes(at int, u float64) float64 {
	e := &o.n.branches[at]
	c := &o.n.p.Consumers[e.of]
	volts, amps := o.n.p.rated(c)
	size := math.Abs(u)
	if (c.Behaviour == Power || c.Behaviour == Motor) && !o.fed[e.of] {
		return 0
	}
	switch c.Behaviour {
	case Filament:
		if size < stillCold*volts {
			return amps / volts / coldShare * u
		}
		return amps / volts / math.Pow(size/volts, 1-warm) * u
	case Power:
		if size < dead*volts {
			return 0
		}
		return math.Copysign(amps*volts/size, u)
	case Motor:
		if o.stalled[e.of] {
			factor, _ := c.inrush()
			return factor * amps / volts * u
		}
		return math.Copysign(amps, u)
	}
	return amps / volts * u
}

// dead is the share of its rated volts below which a constant power is off.
const dead = 0.02

// open finds the volts before constant powers and motors draw, with filaments
// as their slope: from above, where settle begins.
func (o *operator) open(position []int) error {
	clear(o.extra)
	o.close(position)
	o.islands()
	if err := o.l.refactor(o.siemens, o.held); err != nil {
		return err
	}
	o.sources()
	o.l.solve(o.volts, o.inject)
	return nil
}

// settle finds the volts for given positions of contacts. It says why where no
// working point was found, and at which load.
func (o *operator) settle(position []int) (says, place string, err error) {
	o.newton = false
	if !o.opened {
		if err := o.open(position); err != nil {
			return "", "", err
		}
	}
	o.opened = false
	o.fedLoads()
	last := math.Inf(1)
	for sweep := range mostSweeps {
		copy(o.before, o.volts)
		if err := o.sweep(); err != nil {
			return "", "", err
		}
		change := 0.0
		for i, v := range o.volts {
			change = max(change, math.Abs(v-o.before[i]))
		}
		if bad := o.collapsed(); bad >= 0 {
			c := &o.n.p.Consumers[bad]
			return fmt.Sprintf("%s takes the same power at any volts, and the wires cannot bring it: there is no working point", c.Name), c.Name, nil
		}
		if change <= settledAt*o.n.p.nominal() {
			return "", "", nil
		}
		o.newton = sweep > 0 && change > last/30
		last = change
	}
	return fmt.Sprintf("no working point within %d sweeps: the volts are on the edge of collapse", mostSweeps), "", nil
}

// fedLoads notes constant powers and motors that see volts without any load.
func (o *operator) fedLoads() {
	for i, at := range o.n.loads {
		c := &o.n.p.Consumers[i]
		volts, _ := o.n.p.rated(c)
		e := &o.n.branches[at]
		o.fed[i] = (c.Behaviour == Power || c.Behaviour == Motor) && math.Abs(o.across(at)) >= 4*dead*volts && root(o.up, e.a) == root(o.up, e.b)
	}
}

// collapsed returns a constant power that was fed and no longer is, or −1.
func (o *operator) collapsed() int {
	for i, at := range o.n.loads {
		c := &o.n.p.Consumers[i]
		if volts, _ := o.n.p.rated(c); o.fed[i] && c.Behaviour == Power && math.Abs(o.across(at)) < dead*volts {
			return i
		}
	}
	return -1
}

// sweep solves once with what loads take at the volts of the sweep before.
// Filaments stand as their slope and the rest as injected amps; the slope is
// first that of the rated volts, and taken anew where a sweep gained too little.
func (o *operator) sweep() error {
	again, started := false, false
	for i, at := range o.n.loads {
		c := &o.n.p.Consumers[i]
		volts, amps := o.n.p.rated(c)
		u := math.Abs(o.across(at))
		switch {
		case c.Behaviour == Motor && !o.stalled[i] && o.fed[i]:
			if factor, _ := c.inrush(); u < volts/max(factor, 1) {
				o.stalled[i], again, started = true, true, true
			}
		case c.Behaviour == Filament && o.newton:
			again = true
			g := amps / volts / coldShare
			if u >= stillCold*volts {
				g = warm * amps / volts / math.Pow(u/volts, 1-warm)
			}
			o.siemens[at] = g
		}
		if c.Behaviour == Motor && o.stalled[i] {
			o.siemens[at] = o.slope(c, &o.n.branches[at])
		}
	}
	if started {
		o.islands()
	}
	if again {
		if err := o.l.refactor(o.siemens, o.held); err != nil {
			return err
		}
	}
	o.sources()
	for i, at := range o.n.loads {
		c := &o.n.p.Consumers[i]
		if c.Behaviour == "" || c.Behaviour == Resistance || (c.Behaviour != Filament && !o.fed[i]) {
			continue
		}
		u := o.across(at)
		o.extra[i] = o.takes(at, u) - float64(o.siemens[at]*u)
		o.drive(at, -o.extra[i])
	}
	o.l.solve(o.volts, o.inject)
	return nil
}
