package loom

import (
	"fmt"
	"math"
)

// open finds the volts before constant powers and motors draw, with filaments
// as their slope: from above, where settle begins.
func (o *operator) open(position setting) error {
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
func (o *operator) settle(position setting) (says, place string, err error) {
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
	for _, i := range o.bent {
		l := &o.loads[i]
		e := &o.n.branches[l.at]
		o.fed[i] = l.injected() && math.Abs(o.across(l.at)) >= 4*dead*l.volts && root(o.up, e.a) == root(o.up, e.b)
	}
}

// collapsed returns a constant power that was fed and no longer is, or −1.
func (o *operator) collapsed() int {
	for _, i := range o.bent {
		if l := &o.loads[i]; l.behaviour == Power && o.fed[i] && math.Abs(o.across(l.at)) < dead*l.volts {
			return int(i)
		}
	}
	return -1
}

// sweep solves once with what loads take at the volts of the sweep before.
// Filaments stand as their slope and the rest as injected amps; the slope is
// first that of the rated volts, and taken anew where a sweep gained too little.
func (o *operator) sweep() error {
	again, started := false, false
	for _, i := range o.bent {
		l := &o.loads[i]
		u := math.Abs(o.across(l.at))
		switch {
		case l.behaviour == Motor && o.fed[i] && !o.stalled[i] && u < l.volts/max(l.stall, 1):
			o.stalled[i], started = true, true
			o.siemens[l.at] = l.slope(true)
		case l.behaviour == Filament && o.newton:
			again = true
			o.siemens[l.at] = l.slopeAt(u)
		}
	}
	if started {
		o.islands()
	}
	if again || started {
		if err := o.l.refactor(o.siemens, o.held); err != nil {
			return err
		}
	}
	o.sources()
	for _, i := range o.bent {
		l := &o.loads[i]
		if l.injected() && !o.fed[i] {
			continue
		}
		u := o.across(l.at)
		o.extra[i] = l.takes(u, o.fed[i], o.stalled[i]) - float64(o.siemens[l.at]*u)
		o.drive(l.at, -o.extra[i])
	}
	o.l.solve(o.volts, o.inject)
	return nil
}
