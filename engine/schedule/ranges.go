package schedule

import "math"

// ranges are the distributions that a call of Odds draws from.
type ranges struct {
	own    []Lognormal // by activity
	common []Lognormal // by factor, after what finished work came to
	pace   []Lognormal // by person; nil where nobody has a range
	chance []uint64    // by risk: it strikes below this, of 53 random bits
	calls  []call      // activities that only risks call for
}

// call is an activity that is done when all of its risks strike.
type call struct {
	activity int
	risks    []int
}

func rangesOf(p *Problem) ranges {
	r := ranges{}
	for j := range p.Activities {
		r.own = append(r.own, pick(p.Activities[j].Learned, p.Activities[j].Range))
	}
	for _, f := range p.Factors {
		r.common = append(r.common, pick(f.Learned, f.Range))
	}
	r.update(p)
	for i, who := range p.People {
		if (who.Range.given() || who.Learned != (Lognormal{})) && r.pace == nil {
			r.pace = make([]Lognormal, len(p.People))
		}
		if r.pace != nil {
			r.pace[i] = pick(who.Learned, who.Range)
		}
	}
	r.risk(p)
	return r
}

func pick(learned Lognormal, stated Spread) Lognormal {
	if learned != (Lognormal{}) {
		return learned
	}
	return stated.Lognormal()
}

// update takes finished work into the factors. One such piece of work differs
// from the factor by the own range of those that share it, and by their other
// factors: the mean of both over all of them.
func (r *ranges) update(p *Problem) {
	noise := make([]Lognormal, len(r.common)) // Sigma holds variances until the end
	share := make([]float64, len(r.common))
	for j := range p.Activities {
		whole := Lognormal{Mu: r.own[j].Mu, Sigma: r.own[j].Sigma * r.own[j].Sigma}
		for _, f := range p.Activities[j].Factors {
			whole.Mu += r.common[f].Mu
			whole.Sigma += float64(r.common[f].Sigma * r.common[f].Sigma)
		}
		for _, f := range p.Activities[j].Factors {
			share[f]++
			noise[f].Mu += whole.Mu - r.common[f].Mu
			noise[f].Sigma += whole.Sigma - float64(r.common[f].Sigma*r.common[f].Sigma)
		}
	}
	for f := range r.common {
		if share[f] > 0 {
			own := Lognormal{Mu: noise[f].Mu / share[f], Sigma: math.Sqrt(max(0, noise[f].Sigma/share[f]))}
			noise[f] = own
		}
	}
	for f := range r.common {
		r.common[f] = r.common[f].Update(p.Factors[f].Seen, noise[f])
	}
}

func (r *ranges) risk(p *Problem) {
	needs := make([][]int, len(p.Activities))
	for i, k := range p.Risks {
		r.chance = append(r.chance, uint64(k.Chance*(1<<53)))
		for _, j := range k.Activities {
			needs[j] = append(needs[j], i)
		}
	}
	for j, risks := range needs {
		if risks != nil {
			r.calls = append(r.calls, call{j, risks})
		}
	}
}
