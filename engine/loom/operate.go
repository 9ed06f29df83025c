package loom

import "math"

// Bounds of the fixed point. Constant powers and motors are injected amps: from
// no load, every sweep lowers their volts and never past a working point, so
// volts that reach nothing prove that there is none; the sweeps are counted so
// that the edge of collapse ends too.
const (
	mostSweeps = 400
	settledAt  = 1e-8 // of nominal volts
)

// charging says what an alternator is doing.
type charging uint8

const (
	resting charging = iota // its diodes block, or it stands
	holding                 // its volts
	limited                 // it gives all it can
)

// operator solves one net in many states. It keeps its memory.
type operator struct {
	n       *net
	l       *linear
	siemens []float64 // by branch
	fixed   []float64 // conductance of what is always closed, by branch
	cells   []float64 // volts that each battery drives with
	inject  []float64 // by node
	volts   []float64
	before  []float64
	held    []int32
	up      []int32
	pulled  []bool // relays
	charge  []charging
	stalled []bool    // motors
	fed     []bool    // constant powers and motors that see volts
	extra   []float64 // by load: amps beyond its conductance, of the last sweep
	newton  bool
	opened  bool // volts are those of open, for the contacts as they are
	engine  Engine
	states  int
}

func newOperator(n *net) (*operator, error) {
	list, err := newOperators(n, 1)
	if err != nil {
		return nil, err
	}
	return list[0], nil
}

// newOperators makes operators of one net that work side by side.
func newOperators(n *net, many int) ([]*operator, error) {
	p, err := patternOf(n)
	if err != nil {
		return nil, err
	}
	list := make([]*operator, many)
	for i := range list {
		list[i] = operatorOf(n, p)
	}
	return list, nil
}

func operatorOf(n *net, p *pattern) *operator {
	o := &operator{n: n, l: newLinear(p), siemens: make([]float64, len(n.branches)), fixed: make([]float64, len(n.branches))}
	for _, list := range []*[]float64{&o.inject, &o.volts, &o.before} {
		*list = make([]float64, p.n)
	}
	for _, b := range n.p.Batteries {
		o.cells = append(o.cells, n.p.batteryVolts(b))
	}
	o.up = make([]int32, p.n)
	o.pulled = make([]bool, len(n.p.Relays))
	o.charge = make([]charging, len(n.p.Alternators))
	o.stalled = make([]bool, len(n.p.Consumers))
	o.extra = make([]float64, len(n.p.Consumers))
	o.fed = make([]bool, len(n.p.Consumers))
	for i := range n.branches {
		if e := &n.branches[i]; e.ohms > 0 {
			o.fixed[i] = 1 / e.ohms
		}
	}
	for i, f := range n.p.Fuses {
		if f.Empty {
			o.fixed[n.fuses[i]] = 0
		}
	}
	return o
}

// solved is the net at its working point. Its lists belong to the operator
// until copied.
type solved struct {
	volts  []float64 // by node against the body
	amps   []float64 // by branch, from a to b; of sources what flows through them from a to b
	pulled []bool
	holds  bool
	says   string
	place  string // of a collapse or a chatter
	flaw   FlawKind
}

// operate finds the working point for a position of every switch. Relays start
// at rest and alternators at their volts; both are looked at again until they
// agree with the volts they see.
func (o *operator) operate(position []int, engine Engine) (solved, error) {
	o.states++
	o.engine = engine
	clear(o.pulled)
	clear(o.stalled)
	for i := range o.charge {
		o.charge[i] = resting
		if engine != EngineOff && engine != "" {
			o.charge[i] = holding
		}
	}
	last := -1
	o.opened = false
	for range 1 + len(o.pulled) { // relays that see their volts at once
		if err := o.open(position); err != nil {
			return solved{}, err
		}
		if o.moveRelays() < 0 {
			o.opened = true
			break
		}
	}
	rounds := 4 + 2*len(o.pulled) + 3*len(o.charge)
	for range rounds {
		says, place, err := o.settle(position)
		if err != nil {
			return solved{}, err
		}
		if says != "" {
			s := o.result()
			s.holds, s.says, s.place, s.flaw = false, says, place, Collapse
			return s, nil
		}
		relay := o.moveRelays()
		if relay >= 0 {
			last = relay
		}
		if !o.moveChargers() && relay < 0 {
			s := o.result()
			s.holds = true
			return s, nil
		}
	}
	s := o.result()
	s.flaw, s.says = Chatter, "a relay pulls in, takes away its own volts and lets go again"
	if last >= 0 {
		s.place = o.n.p.Relays[last].Name
	}
	return s, nil
}

// close sets the conductance of everything but loads.
func (o *operator) close(position []int) {
	p := o.n.p
	copy(o.siemens, o.fixed)
	for i := range o.n.branches {
		e := &o.n.branches[i]
		switch e.kind {
		case contactBranch:
			if !e.closed[position[e.of]] {
				o.siemens[i] = 0
			}
		case makeBranch:
			if !o.pulled[e.of] {
				o.siemens[i] = 0
			}
		case breakBranch:
			if o.pulled[e.of] {
				o.siemens[i] = 0
			}
		case alternatorBranch:
			if o.charge[e.of] != holding {
				o.siemens[i] = 0
			}
		case loadBranch:
			o.siemens[i] = o.slope(&p.Consumers[e.of], e)
		}
	}
}

// slope is the conductance that stands for a load before its volts are known.
func (o *operator) slope(c *Consumer, e *branch) float64 {
	volts, amps := o.n.p.rated(c)
	switch c.Behaviour {
	case Filament:
		return warm * amps / volts
	case Power, Motor:
		if o.stalled[e.of] {
			factor, _ := c.inrush()
			return factor * amps / volts
		}
		return 0
	}
	return amps / volts
}

// islands finds one node in every part of the net that hangs together, the body
// in its own.
func (o *operator) islands() {
	for i := range o.up {
		o.up[i] = int32(i)
	}
	for i, g := range o.siemens {
		if e := &o.n.branches[i]; g > 0 {
			x, y := root(o.up, e.a), root(o.up, e.b)
			o.up[max(x, y)] = min(x, y)
		}
	}
	o.held = o.held[:0]
	for i := range o.up {
		if int(o.up[i]) == i {
			o.held = append(o.held, int32(i))
		}
	}
	home := root(o.up, o.n.body)
	for k, i := range o.held {
		if i == home {
			o.held[k] = o.n.body
		}
	}
}

// sources injects what batteries and alternators drive.
func (o *operator) sources() {
	clear(o.inject)
	p := o.n.p
	for i, volts := range o.cells {
		o.drive(o.n.cells[i], volts*o.siemens[o.n.cells[i]])
	}
	for i, a := range p.Alternators {
		switch o.charge[i] {
		case holding:
			o.drive(o.n.chargers[i], p.alternatorVolts(a)*o.siemens[o.n.chargers[i]])
		case limited:
			o.drive(o.n.chargers[i], a.most(o.engine))
		}
	}
}

func (a Alternator) most(engine Engine) float64 {
	if engine == EngineIdle {
		return or(a.IdleAmps, 0.7*a.RatedAmps)
	}
	return a.RatedAmps
}

// drive sends amps out of the plus end of a source and back in at the other.
func (o *operator) drive(at int, amps float64) {
	e := &o.n.branches[at]
	o.inject[e.a] += amps
	o.inject[e.b] -= amps
}

func (o *operator) across(at int) float64 {
	e := &o.n.branches[at]
	return o.volts[e.a] - o.volts[e.b]
}

// moveRelays pulls in and lets go by the volts at the coils, and returns a
// relay that moved, or −1.
func (o *operator) moveRelays() int {
	moved := -1
	for i, r := range o.n.p.Relays {
		u := math.Abs(o.across(o.n.coils[i]))
		want := o.pulled[i]
		if u >= or(r.PullV, 0.6*o.n.p.nominal()) {
			want = true
		} else if u < or(r.HoldV, 0.2*o.n.p.nominal()) {
			want = false
		}
		if want != o.pulled[i] {
			o.pulled[i], moved = want, i
		}
	}
	return moved
}

// moveChargers puts alternators at rest that would take current, bounds those
// that would give more than they can, and lets those hold again that need not.
func (o *operator) moveChargers() bool {
	moved := false
	for i, a := range o.n.p.Alternators {
		if o.engine == EngineOff || o.engine == "" {
			continue
		}
		at, was := o.n.chargers[i], o.charge[i]
		spare := o.n.p.alternatorVolts(a) - o.across(at)
		amps := spare * o.fixed[at]
		switch {
		case was == holding && amps < -1e-9:
			o.charge[i] = resting
		case was == holding && amps > a.most(o.engine):
			o.charge[i] = limited
		case was == limited && spare < 0, was == resting && spare > 1e-9:
			o.charge[i] = holding
		}
		moved = moved || was != o.charge[i]
	}
	return moved
}

// result works out what every branch carries.
func (o *operator) result() solved {
	amps := make([]float64, len(o.n.branches))
	for i := range o.n.branches {
		u := o.across(i)
		switch e := &o.n.branches[i]; e.kind {
		case batteryBranch:
			amps[i] = (u - o.cells[e.of]) * o.siemens[i]
		case alternatorBranch:
			a := o.n.p.Alternators[e.of]
			amps[i] = (u - o.n.p.alternatorVolts(a)) * o.siemens[i]
			if o.charge[e.of] == limited {
				amps[i] = -a.most(o.engine)
			}
		case loadBranch:
			amps[i] = o.extra[e.of] + float64(o.siemens[i]*u)
		default:
			amps[i] = u * o.siemens[i]
		}
	}
	return solved{volts: append([]float64{}, o.volts...), amps: amps, pulled: append([]bool{}, o.pulled...)}
}
