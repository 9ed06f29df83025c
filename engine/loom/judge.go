package loom

import (
	"math"
	"slices"
)

// asked is all that a section is chosen by, of one run.
type asked struct {
	run     *Run
	wire    int // index of the wire, −1 of a circuit
	amps    float64
	setting setting // in which it carries them
	side    side
	guard   int     // fuse, −1: none
	instead float64 // rating to judge by instead of that of the fuse, 0: its own
	rest    float64 // ohms of a short circuit's loop but the run itself; +Inf: no short is fed here
	limitV  float64
	says    string // where the limit is from
	ambient float64
	bundle  float64
	wires   int    // in its bundle, 0: no bundle named
	lies    string // name of that bundle
	size    int    // index in the cable, −1 where the section is the owner's own
	c       Conductor
	fitted  bool
	rule    Rule
}

// checked is what one size comes to.
type checked struct {
	usable, density  float64
	celsius, drop    float64
	faultA, faultS   float64
	faultHeat, bears float64
	fails            []Rule
}

// small is the part of a limit by which rounding may pass it.
const small = 1e-9

func over(v, limit float64) bool { return v > limit*(1+small) }

// check works out every rule for a size.
func (s *sizer) check(a *asked, c Conductor) checked {
	r, cable := s.rules, s.cable
	k := checked{usable: c.Amps * a.bundle * s.ambientFactor(a)}
	if over(a.amps, k.usable) {
		k.fails = append(k.fails, ByLoad)
	}
	rating := s.rating(a)
	if over(rating, k.usable) {
		k.fails = append(k.fails, ByFuse)
	}
	k.celsius = s.celsius(a, c)
	if k.drop = a.amps * c.Ohms(a.run.LengthM, k.celsius); over(k.drop, a.limitV) {
		k.fails = append(k.fails, ByDrop)
	}
	if k.density = density(c.MM2) * c.MM2; r.Dense && (a.run.Duty == "" || a.run.Duty == Continuous) && over(a.amps, k.density) {
		k.fails = append(k.fails, ByDensity)
	}
	if r.LeastAlone > c.MM2*(1+small) && a.wires == 1 {
		k.fails = append(k.fails, ByAlone)
	}
	if r.Faulted && a.guard >= 0 && !math.IsInf(a.rest, 1) {
		curve := &s.curves[a.guard]
		k.bears = cable.K * cable.K * c.MM2 * c.MM2
		k.faultA = r.FaultV * s.p.scale() / (a.rest + r.ContactsOhm + c.Ohms(a.run.LengthM, cable.MaxC))
		k.faultHeat, k.faultS = curve.LetThrough(rating, k.faultA, k.bears)
		if k.faultHeat > k.bears || k.faultS > longestFault {
			k.fails = append(k.fails, ByFault)
		}
	}
	return k
}

// rating is that of the fuse before a run, 0 without one.
func (s *sizer) rating(a *asked) float64 {
	if a.guard < 0 {
		return 0
	}
	return or(a.instead, s.p.Fuses[a.guard].Amps)
}

// longestFault is how many seconds the adiabatic formula holds for.
const longestFault = 5

// ambientFactor: a rating at T0 becomes √((Tmax − Ta)/(Tmax − T0)) of it at Ta,
// and never more than printed.
func (s *sizer) ambientFactor(a *asked) float64 {
	if !s.rules.Hot {
		return 1
	}
	return min(1, math.Sqrt(max(0, s.cable.MaxC-a.ambient)/(s.cable.MaxC-s.cable.AmbientC)))
}

// celsius is the temperature that the load heats the conductor to: the rise of
// its rating times the square of the share of the rating in its bundle.
func (s *sizer) celsius(a *asked, c Conductor) float64 {
	if !s.rules.Hot {
		return 20
	}
	share := a.amps / (c.Amps * a.bundle)
	return min(s.cable.MaxC, a.ambient+float64((s.cable.MaxC-s.cable.AmbientC)*share*share))
}

// choose takes the smallest size from the one given on that fails nothing.
func (s *sizer) choose(a *asked, least int) {
	if a.fitted {
		a.rule = ByFitted
		return
	}
	sizes := s.cable.Sizes
	a.rule = ByLeast
	for i := 0; i < len(sizes); i++ {
		fails := s.check(a, sizes[i]).fails
		if len(fails) == 0 && i >= least {
			a.size, a.c = i, sizes[i]
			return
		}
		if len(fails) > 0 {
			a.rule = fails[0]
			if i == len(sizes)-1 {
				a.size, a.c, a.rule = i, sizes[i], ByNone
				return
			}
		}
	}
	a.size, a.c = len(sizes)-1, sizes[len(sizes)-1]
}

// pairs lifts the runs of a pair to the largest section among them.
func (s *sizer) pairs() {
	most := map[string]int{}
	for i := range s.asked {
		a := &s.asked[i]
		if p := a.run.Pair; p != "" {
			if k, ok := most[p]; !ok || a.c.MM2 > s.asked[k].c.MM2 {
				most[p] = i
			}
		}
	}
	for i := range s.asked {
		a := &s.asked[i]
		if k, ok := most[a.run.Pair]; ok && a.run.Pair != "" && !a.fitted && a.c.MM2 < s.asked[k].c.MM2 {
			if at := slices.IndexFunc(s.cable.Sizes, func(c Conductor) bool { return c.MM2 >= s.asked[k].c.MM2*(1-small) }); at >= 0 {
				a.size, a.c, a.rule = at, s.cable.Sizes[at], ByPair
			}
		}
	}
}

// bundles works out the factor of every run: the least that a bundle it lies in
// leaves, by how many wires lie there and how much of their ratings they carry,
// or the flat one.
func (s *sizer) bundles() {
	for i := range s.asked {
		a := &s.asked[i]
		a.wires, a.lies, a.bundle = 0, "", s.rules.FlatBundle
	}
	if s.rules.Counted && s.lying == nil {
		s.lying = s.p.lying()
	}
	for k, list := range s.lying {
		if len(list) == 0 {
			continue
		}
		carried, rated := 0.0, 0.0
		for _, i := range list {
			a := &s.asked[i]
			carried += min(a.amps, a.c.Amps)
			rated += a.c.Amps
		}
		n := max(len(list), s.p.Bundles[k].Wires) // those not listed carry as those that are
		factor := BundleFactor(n, carried/rated)
		for _, i := range list {
			if a := &s.asked[i]; a.wires == 0 || factor < a.bundle {
				a.wires, a.lies, a.bundle = n, s.p.Bundles[k].Name, factor
			}
		}
	}
	for i := range s.asked {
		if a := &s.asked[i]; s.rules.ShortBare && a.run.Unfused != "" && a.run.Duty == Short {
			a.wires, a.lies, a.bundle = 0, "", 1
		}
	}
}
