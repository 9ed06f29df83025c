package loom

import "math"

// Filaments: amps ∝ volts^0.55, and no less resistance than a tenth of the hot.
const (
	warm      = 0.55
	coldShare = 0.1
)

// stillCold is the share of the rated volts below which the resistance is that
// tenth.
var stillCold = math.Pow(coldShare, 1/(1-warm))

// dead is the share of its rated volts below which a constant power is off.
const dead = 0.02

// load is how a consumer takes current, worked out once.
type load struct {
	behaviour   Behaviour
	at          int // branch
	volts, amps float64
	siemens     float64 // amps ÷ volts
	stall       float64 // locked rotor ÷ rated amps
}

func (n *net) loadOf(i int) load {
	c := &n.p.Consumers[i]
	l := load{behaviour: c.Behaviour, at: n.loads[i]}
	l.volts, l.amps = n.p.rated(c)
	l.siemens = l.amps / l.volts
	l.stall, _ = c.inrush()
	return l
}

// steady reports whether amps are a multiple of volts while the load conducts.
func (l *load) steady() bool {
	return l.behaviour == "" || l.behaviour == Resistance || l.behaviour == LED
}

// injected reports whether the load stands as amps and not as a conductance.
func (l *load) injected() bool { return l.behaviour == Power || l.behaviour == Motor }

// slope is the conductance that stands for a load before its volts are known.
func (l *load) slope(stalled bool) float64 {
	switch {
	case l.behaviour == Filament:
		return warm * l.siemens
	case l.injected() && stalled:
		return l.stall * l.siemens
	case l.injected():
		return 0
	}
	return l.siemens
}

// slopeAt is the slope of a filament at volts.
func (l *load) slopeAt(u float64) float64 {
	if u < stillCold*l.volts {
		return l.siemens / coldShare
	}
	return warm * l.siemens / ratio(u/l.volts)
}

// takes returns the amps that a load takes at volts, with their sign.
func (l *load) takes(u float64, fed, stalled bool) float64 {
	size := math.Abs(u)
	if l.injected() && !fed {
		return 0
	}
	switch l.behaviour {
	case Filament:
		if size < stillCold*l.volts {
			return l.siemens / coldShare * u
		}
		return l.siemens / ratio(size/l.volts) * u
	case Power:
		if size < dead*l.volts {
			return 0
		}
		return math.Copysign(l.amps*l.volts/size, u)
	case Motor:
		if stalled {
			return l.stall * l.siemens * u
		}
		return math.Copysign(l.amps, u)
	}
	return l.siemens * u
}

// light is the share of its light that a filament keeps at a share of its volts: a
// trade default.
func light(share float64) float64 { return math.Pow(share, 3.4) }

// ratio is the hot resistance of a filament at a share of its volts, in shares
// of the rated one: share^0.45.
func ratio(share float64) float64 { return math.Exp((1 - warm) * math.Log(share)) }
