package loom

import (
	"math"
	"slices"

	"fettle/fault"
)

// Recheck recomputes from the problem whether every run of a result keeps the
// rules that it is said to keep: from its size, its amps and the fuse that is
// named, by formulas of its own. What the net carries it takes from the result.
func Recheck(p Problem, r Result) error {
	runs := p.Runs()
	if len(runs) != len(r.Runs) {
		return fault.New(fault.Internal, "%d runs came to %d", len(runs), len(r.Runs))
	}
	rules, cable, err := p.rules()
	if err != nil {
		return err
	}
	sizes := p.sizes(cable)
	curves := map[string]Curve{} // by fuse
	for _, f := range p.Fuses {
		curves[f.Name], _ = p.curve(f.Type)
	}
	factors := p.laid(rules, sizes, r.Runs)
	for i, run := range runs {
		one := r.Runs[i]
		size, ok := sizes[one.Section]
		if !ok || one.ID != run.ID || run.Section != "" && run.Section != one.Section {
			return fault.New(fault.Internal, "its section %q is not one of the cable's", one.Section).At(run.ID)
		}
		if one.Rule == ByNone {
			continue
		}
		factor := factors[i]
		if rules.ShortBare && run.Unfused != "" && run.Duty == Short {
			factor = 1
		}
		if broken := brokenBy(&p, rules, cable, curves[one.Fuse], run, one, size, factor); broken != "" && !slices.Contains(one.Fails, broken) {
			return fault.New(fault.Internal, "it breaks the rule %q unsaid", broken).At(run.ID)
		}
	}
	return nil
}

// laid is the bundle factor of every run: the flat one, or the least of the
// bundles it lies in.
func (p *Problem) laid(rules Rules, sizes map[string]Conductor, sized []Sized) []float64 {
	factors, runs := make([]float64, len(sized)), p.Runs()
	for i := range factors {
		factors[i] = rules.FlatBundle
	}
	seen := map[int]bool{}
	for _, b := range p.Bundles {
		named := map[string]bool{}
		for _, id := range b.Runs {
			named[id] = true
		}
		var in []int
		carried, rated := 0.0, 0.0
		for i, run := range runs {
			if rules.Counted && (run.Bundle == b.Name || named[run.ID]) {
				c := sizes[sized[i].Section]
				carried += math.Min(sized[i].Amps, c.Amps)
				rated += c.Amps
				in = append(in, i)
			}
		}
		for _, i := range in {
			if f := BundleFactor(max(len(in), b.Wires), carried/rated); !seen[i] || f < factors[i] {
				factors[i], seen[i] = f, true
			}
		}
	}
	return factors
}

// brokenBy returns the first rule that a size breaks and the result does not
// name, or nothing.
func brokenBy(p *Problem, rules Rules, cable Cable, curve Curve, run Run, one Sized, c Conductor, factor float64) Rule {
	const slack = 1 + 1e-6
	air, celsius := 1.0, 20.0
	if rules.Hot {
		ambient := p.ambient(run.Zone)
		if ambient > cable.AmbientC {
			air = math.Sqrt((cable.MaxC - ambient) / (cable.MaxC - cable.AmbientC))
		}
		celsius = math.Min(cable.MaxC, ambient+(cable.MaxC-cable.AmbientC)*math.Pow(one.Amps/c.Amps/factor, 2))
	}
	usable := c.Amps * air * factor
	said := func(r Rule) bool { return slices.Contains(one.Fails, r) }
	switch {
	case one.Amps > usable*slack && !said(ByLoad):
		return ByLoad
	case one.FuseA > usable*slack && !said(ByFuse):
		return ByFuse
	case one.Amps*c.MilliOhmPerM/1000*run.LengthM*(1+alpha*(celsius-20)) > one.DropMaxV*slack && !said(ByDrop):
		return ByDrop
	}
	if one.FaultA > 0 && rules.Faulted && !said(ByFault) {
		if heat, seconds := curve.LetThrough(one.FuseA, one.FaultA, cable.K*cable.K*c.MM2*c.MM2); heat > cable.K*cable.K*c.MM2*c.MM2*slack || seconds > longestFault*slack {
			return ByFault
		}
	}
	return ""
}
