package loom

import (
	"math"
	"slices"
)

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
	loads   []load
	bent    []int32 // loads whose amps are no fixed multiple of their volts
	live    pieces  // what hangs together by what conducts
	held    []int32
	up      []int32
	pulled  []bool // relays
	charge  []charging
	stalled []bool    // motors
	fed     []bool    // constant powers and motors that see volts
	blocked []bool    // LEDs with their minus above their plus
	oneWay  []int32   // loads that are LEDs
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
	o.fed, o.blocked = make([]bool, len(n.p.Consumers)), make([]bool, len(n.p.Consumers))
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
	for i := range n.p.Consumers {
		l := n.loadOf(i)
		o.loads, o.fixed[l.at] = append(o.loads, l), l.slope(false)
		if !l.steady() {
			o.bent = append(o.bent, int32(i))
		}
		if l.behaviour == LED {
			o.oneWay = append(o.oneWay, int32(i))
		}
	}
	o.live = n.piecesOf(
		func(i int, e *branch) bool { return !n.moves(e) && (e.kind == wireBranch || o.fixed[i] > 0) },
		func(_ int, e *branch) bool { return n.moves(e) },
	)
	return o
}

// moves reports whether the conductance of a branch is none at times.
func (n *net) moves(e *branch) bool {
	if e.kind == loadBranch {
		b := n.p.Consumers[e.of].Behaviour
		return b == Power || b == Motor || b == LED
	}
	return e.kind.switched() || e.kind == alternatorBranch
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
func (o *operator) operate(position setting, engine Engine) (solved, error) {
	var s solved
	err := o.into(&s, position, engine)
	return s, err
}

// into does what operate does, in the memory of s where it has some.
func (o *operator) into(s *solved, position setting, engine Engine) error {
	*s = solved{volts: s.volts, amps: s.amps, pulled: s.pulled}
	o.states++
	o.engine = engine
	clear(o.pulled)
	clear(o.stalled)
	clear(o.blocked)
	for i := range o.charge {
		o.charge[i] = resting
		if engine != EngineOff && engine != "" {
			o.charge[i] = holding
		}
	}
	if err := o.openRelays(position); err != nil {
		return err
	}
	last := -1
	for range 4 + 2*len(o.pulled) + 2*len(o.oneWay) + 3*len(o.charge) {
		says, place, err := o.settle(position)
		if err != nil {
			return err
		}
		if says != "" {
			o.result(s)
			s.says, s.place, s.flaw = says, place, Collapse
			return nil
		}
		relay, led := o.moveRelays(), o.moveLEDs()
		if relay >= 0 {
			last = relay
		}
		if !o.moveChargers() && relay < 0 && !led {
			o.result(s)
			s.holds = true
			return nil
		}
	}
	o.result(s)
	s.flaw, s.says = Chatter, "a relay pulls in, takes away its own volts and lets go again"
	if last >= 0 {
		s.place = o.n.p.Relays[last].Name
	}
	return nil
}

// openRelays pulls in at once what sees its volts before any load draws, LEDs the
// wrong way round left out.
func (o *operator) openRelays(position setting) error {
	o.opened = false
	for range 1 + len(o.pulled) + 2*len(o.oneWay) {
		if err := o.open(position); err != nil {
			return err
		}
		if !o.moveLEDs() && o.moveRelays() < 0 {
			o.opened = true
			break
		}
	}
	return nil
}

// close sets the conductance of everything, loads as their slope.
func (o *operator) close(position setting) {
	copy(o.siemens, o.fixed)
	for _, i := range o.live.moves {
		e := &o.n.branches[i]
		shut := true
		switch e.kind {
		case contactBranch:
			shut = e.closed[position[e.of]]
		case makeBranch:
			shut = o.pulled[e.of]
		case breakBranch:
			shut = !o.pulled[e.of]
		case alternatorBranch:
			shut = o.charge[e.of] == holding
		case loadBranch:
			o.siemens[i], shut = o.loads[e.of].slope(o.stalled[e.of]), !o.blocked[e.of]
		}
		if !shut {
			o.siemens[i] = 0
		}
	}
}

// islands finds one node in every part of the net that hangs together, the body
// in its own.
func (o *operator) islands() {
	o.live.join(o.n, o.up, func(i int, _ *branch) bool { return o.siemens[i] > 0 })
	home := root(o.up, o.n.body)
	o.held = o.held[:0]
	for _, i := range o.live.least {
		switch {
		case o.up[i] != i:
		case i == home:
			o.held = append(o.held, o.n.body)
		default:
			o.held = append(o.held, i)
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

// moveLEDs blocks those with their minus above their plus, and lets those conduct
// again that have it below.
func (o *operator) moveLEDs() bool {
	moved := false
	for _, i := range o.oneWay {
		u := o.across(o.loads[i].at)
		if sure := 1e-6 * o.n.p.nominal(); math.Abs(u) > sure && o.blocked[i] != (u < 0) {
			o.blocked[i], moved = u < 0, true
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
func (o *operator) result(s *solved) {
	s.volts, s.pulled = append(s.volts[:0], o.volts...), append(s.pulled[:0], o.pulled...)
	s.amps = slices.Grow(s.amps[:0], len(o.siemens))[:len(o.siemens)]
	for i, g := range o.siemens {
		s.amps[i] = o.across(i) * g
	}
	for i, b := range o.n.cells {
		s.amps[b] -= o.cells[i] * o.siemens[b]
	}
	for i, b := range o.n.chargers {
		a := o.n.p.Alternators[i]
		if s.amps[b] -= o.n.p.alternatorVolts(a) * o.siemens[b]; o.charge[i] == limited {
			s.amps[b] = -a.most(o.engine)
		}
	}
	for _, i := range o.bent {
		s.amps[o.loads[i].at] += o.extra[i]
	}
}
