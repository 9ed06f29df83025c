package schedule

import (
	"math"
	"slices"
)

// Outlook is what many played runs of a plan came to.
type Outlook struct {
	Finishes []Minute // last finish of every run, sorted; Never where the calendars ended first
	Groups   []Share  // in order of first appearance in Activities
	Risks    []Strike // in the order of Problem.Risks
	starts   []Minute // by activity, each sorted
}

// Strike is what a risk did: the runs in which it struck beside those in which
// it did not. Luck is independent, so the difference is what it costs, with the
// sampling error of so many runs each.
type Strike struct {
	Risk          string
	Part          float64 // of the runs in which it struck
	With, Without float64 // part of the runs that met Problem.Goal, of those with it and those without; 0 where there are none
	Later         Minute  // mean finish with it less mean finish without
}

// Share is how often a group lay on the chain that set the finish of a run.
type Share struct {
	Group string
	Part  float64 // of the runs, 0 to 1
}

// Quantile is the finish that a part q of the runs met: the smallest finish
// with at least q of the runs at or before it.
func (o Outlook) Quantile(q float64) Minute { return quantile(o.Finishes, q) }

// Chance is the part of the runs that finished at or before t, with its
// standard error.
func (o Outlook) Chance(t Minute) (chance, stdErr float64) {
	if len(o.Finishes) == 0 {
		return 0, 0
	}
	met, _ := slices.BinarySearch(o.Finishes, t+1)
	runs := float64(len(o.Finishes))
	chance = float64(met) / runs
	return chance, math.Sqrt(chance * (1 - chance) / runs)
}

// Between is where the true quantile lies in 19 of 20 sets of runs as many as
// these: the interval of order statistics whose ranks are 1.96 standard
// deviations of a binomial count about the quantile's own, rounded outwards
// [DavidNagaraja2003]. In minutes; more runs make it narrower.
func (o Outlook) Between(q float64) (low, high Minute) {
	if len(o.Finishes) == 0 {
		return Never, Never
	}
	runs := float64(len(o.Finishes))
	reach := 1.96 * math.Sqrt(runs*q*(1-q))
	last := len(o.Finishes) - 1
	low = o.Finishes[min(max(int(math.Floor(float64(runs*q)-reach))-1, 0), last)]
	high = o.Finishes[min(max(int(math.Ceil(float64(runs*q)+reach)), 0), last)]
	return low, high
}

// Start is the start of an activity that a part q of the runs met. It needs
// OddsOptions.Starts and is Never without.
func (o Outlook) Start(activity int, q float64) Minute {
	runs := len(o.Finishes)
	if (activity+1)*runs > len(o.starts) {
		return Never
	}
	return quantile(o.starts[activity*runs:(activity+1)*runs], q)
}

func quantile(sorted []Minute, q float64) Minute {
	if len(sorted) == 0 {
		return Never
	}
	i := int(math.Ceil(q*float64(len(sorted)))) - 1
	return sorted[min(max(i, 0), len(sorted)-1)]
}

func (g *game) outlook() Outlook {
	out := Outlook{Finishes: g.finishes, Risks: g.strikes(), starts: g.starts}
	slices.Sort(out.Finishes)
	for at := 0; at < len(g.starts); at += g.o.Runs {
		slices.Sort(g.starts[at : at+g.o.Runs])
	}
	out.Groups = g.shares()
	return out
}

func (g *game) shares() []Share {
	var list []Share
	for i, name := range g.names {
		met := 0
		for _, c := range g.critical {
			met += c[i]
		}
		list = append(list, Share{Group: name, Part: float64(met) / float64(g.o.Runs)})
	}
	return list
}

// strikes draws again which risks struck, before the finishes are sorted.
func (g *game) strikes() []Strike {
	var list []Strike
	for i, k := range g.risks {
		var runs, met, sum [2]float64
		for r, finish := range g.finishes {
			side := 0
			if luckOf(g.o.Seed, r).bits(k) < g.ranges.chance[i] {
				side = 1
			}
			runs[side]++
			sum[side] += float64(finish)
			if finish <= g.n.Goal {
				met[side]++
			}
		}
		s := Strike{Risk: g.n.Risks[i].ID, Part: runs[1] / float64(g.o.Runs), With: met[1] / max(runs[1], 1), Without: met[0] / max(runs[0], 1)}
		if runs[0] > 0 && runs[1] > 0 {
			s.Later = rounded(sum[1]/runs[1] - sum[0]/runs[0])
		}
		list = append(list, s)
	}
	return list
}
