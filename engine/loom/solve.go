package loom

import (
	"context"
	"math"
	"slices"
)

// sizer chooses sections: the net is solved in every state that matters, the
// sections follow from what wires carry, and again until nothing changes.
type sizer struct {
	p      *Problem
	opts   Options
	rules  Rules
	cable  Cable
	n      *net
	ops    []*operator // one a worker
	w      *ways
	metal  pieces  // what hangs together by metal, fuses taken out
	asked  []asked // circuits, then wires
	groups []group
	every  bool // all positions of all switches together are tried
	heavy  setting
	seen   []seen // states that were solved in the last pass
	short  []bool // by switch: held for seconds
	passes int
	curves []Curve   // by fuse
	long   []float64 // by fuse: most amps in states without short-time loads
	all    []float64 // by fuse: most amps in any state
	lying  [][]int   // by bundle: the runs in it, none where they are not counted
}

// seen is a state with its working point.
type seen struct {
	setting setting
	solved
	brief bool // a load of seconds is on
	short bool // feed is joined to earth
}

// Solve works a loom out. A problem that breaks a rule of its form is an error
// with its place; what is wrong with the loom itself stands in the result.
// Every run handed out has passed Recheck.
func Solve(ctx context.Context, p Problem, opts Options) (Result, error) {
	s, err := newSizer(&p, opts)
	if err != nil {
		return Result{}, err
	}
	if err := s.repeat(ctx); err != nil {
		return Result{}, err
	}
	r := s.result()
	return r, Recheck(p, r)
}

// newSizer checks and compiles a problem; nothing is solved yet.
func newSizer(p *Problem, opts Options) (*sizer, error) {
	rules, cable, err := p.rules()
	if err != nil {
		return nil, err
	}
	if err := p.validate(cable); err != nil {
		return nil, err
	}
	if opts.MostPerGroup == 0 {
		opts.MostPerGroup = 512
	}
	if opts.Every == 0 {
		opts.Every = 512
	}
	s := &sizer{p: p, opts: opts, rules: rules, cable: cable, n: netOf(p)}
	if s.ops, err = newOperators(s.n, workers); err != nil {
		return nil, err
	}
	s.metal = s.n.piecesOf(
		func(_ int, e *branch) bool { return e.kind.passes() && !e.kind.switched() && e.kind != fuseBranch },
		func(_ int, e *branch) bool { return e.kind.switched() },
	)
	s.groups, s.heavy = s.n.groups(), make(setting, len(p.Switches))
	for _, g := range s.groups {
		if err := s.n.bounded(g, opts.MostPerGroup); err != nil {
			return nil, err
		}
	}
	s.every = s.n.positions(opts.Every) <= opts.Every
	s.begin()
	s.bundles()
	return s, nil
}

// begin lists what is asked of every run before the net is solved.
func (s *sizer) begin() {
	p := s.p
	for _, f := range p.Fuses {
		c, _ := p.curve(f.Type)
		s.curves = append(s.curves, c)
	}
	for i := range p.Circuits {
		c := &p.Circuits[i]
		a := asked{run: &c.Run, wire: -1, amps: c.Amps, guard: -1, ambient: p.ambient(c.Zone)}
		a.rest = or(s.batteryOhm(), s.rules.BatteryOhm*p.scale()) + s.rules.ReturnOhm
		if at := slices.IndexFunc(p.Fuses, func(f Fuse) bool { return f.Name == c.Fuse }); at >= 0 {
			a.guard = at
			a.rest += s.fuseOhms(at, true)
		}
		s.asked = append(s.asked, a)
	}
	for i := range p.Wires {
		s.asked = append(s.asked, asked{run: &p.Wires[i].Run, wire: i, guard: -1, ambient: p.ambient(p.Wires[i].Zone)})
	}
	sizes := p.sizes(s.cable)
	for i := range s.asked {
		a := &s.asked[i]
		a.size, a.c = len(s.cable.Sizes)-1, s.cable.Sizes[len(s.cable.Sizes)-1]
		if a.run.Section != "" {
			a.fitted = true
			a.size = -1
			a.c = sizes[a.run.Section]
		}
		if a.limitV, a.says = s.stated(a.run); a.limitV == 0 {
			a.limitV, a.says = s.rules.DropPercent/100*s.rules.SupplyV*p.scale(), "of the rule set"
		}
	}
	for _, w := range p.Switches {
		s.short = append(s.short, w.Short)
	}
	for i := range p.Batteries {
		if len(p.Alternators) > 0 {
			for _, o := range s.ops {
				o.cells[i] = p.alternatorVolts(p.Alternators[0])
			}
		}
	}
}

func (s *sizer) fuseOhms(i int, hot bool) float64 {
	f := s.p.Fuses[i]
	if f.Ohms > 0 {
		return f.Ohms
	}
	return s.curves[i].Ohms(f.Amps, hot)
}

// batteryOhm is the resistance of the batteries in parallel, 0 without one.
func (s *sizer) batteryOhm() float64 {
	g := 0.0
	for _, b := range s.p.Batteries {
		g += 1 / s.p.batteryOhms(b)
	}
	if g == 0 {
		return 0
	}
	return 1 / g
}

// stated returns the limit of volts that a run states, 0 where it states none.
func (s *sizer) stated(r *Run) (float64, string) {
	v, says := math.Inf(1), ""
	if r.DropPercent > 0 {
		v, says = r.DropPercent/100*s.rules.SupplyV*s.p.scale(), "stated in percent"
	}
	if r.DropV > 0 && r.DropV < v {
		v, says = r.DropV, "stated in volts"
	}
	if math.IsInf(v, 1) {
		return 0, ""
	}
	return v, says
}

// repeat solves and chooses until no section changes, at least twice: the first
// pass knows neither the heat of the wires nor all states. The first choice is made
// with the amps of ample wires and the second anew; from the third on sections
// only grow, so it ends.
func (s *sizer) repeat(ctx context.Context) error {
	for {
		if err := s.survey(ctx); err != nil {
			return err
		}
		s.passes++
		before := make([]string, len(s.asked))
		for i := range s.asked {
			before[i] = s.asked[i].c.Name
		}
		s.bundles()
		for i := range s.asked {
			least := 0
			if s.passes > 2 {
				least = s.asked[i].size
			}
			s.choose(&s.asked[i], least)
		}
		s.pairs()
		s.settleBundles()
		changed := false
		for i := range s.asked {
			changed = changed || s.asked[i].wire >= 0 && s.asked[i].c.Name != before[i]
		}
		if !changed && s.passes > 1 || s.passes > 3*len(s.cable.Sizes) {
			return nil
		}
	}
}

// settleBundles lets the factors and the sections agree: what lies in a bundle
// carries a larger share of smaller wires. Sections only grow.
func (s *sizer) settleBundles() {
	for range len(s.cable.Sizes) + 1 {
		s.bundles()
		again := false
		for i := range s.asked {
			a := &s.asked[i]
			if !a.fitted && len(s.check(a, a.c).fails) > 0 && a.size < len(s.cable.Sizes)-1 {
				s.choose(a, a.size)
				again = true
			}
		}
		s.pairs()
		if !again {
			return
		}
	}
}

// ohms returns the resistance of every branch as it stands: wires at their
// largest temperature, or at that of their load.
func (s *sizer) ohms(hottest bool) []float64 {
	list := make([]float64, len(s.n.branches))
	for i := range s.n.branches {
		list[i] = s.n.branches[i].ohms
	}
	first := len(s.p.Circuits)
	for i, at := range s.n.wires {
		a := &s.asked[first+i]
		celsius := s.cable.MaxC
		if !hottest {
			celsius = s.celsius(a, a.c)
		}
		list[at] = a.c.Ohms(a.run.LengthM, celsius)
	}
	for i, at := range s.n.fuses {
		list[at] = s.fuseOhms(i, hottest)
	}
	for i, at := range s.n.loads {
		volts, amps := s.p.rated(&s.p.Consumers[i])
		list[at] = volts / amps
	}
	return list
}
