package project

import (
	"fmt"

	"fettle/fault"
)

// Problem is a project: n activities that run without a break, each holding
// units of K renewable resources while it runs.
type Problem struct {
	Duration []int32   // n, in slots of any length; 0 is a milestone
	Demand   [][]int32 // n by K, units held while the activity runs
	Capacity []int32   // K, units there are at any time
	Succ     [][]int32 // n lists: what may start only when the activity is over
}

// The rules a Problem must keep; a fault names the one that is broken.
const (
	ruleLengths  = "rule 1: Duration, Demand and Succ have one entry for each activity"
	ruleDuration = "rule 2: durations are not negative and add up to at most 16,777,216 slots"
	ruleDemand   = "rule 3: demands are not negative and within the capacity"
	ruleLinks    = "rule 4: successors are other activities of the project"
	ruleLoop     = "rule 5: nothing comes after itself"
)

const longest = 1 << 24 // slots; keeps a profile under 128 MB a word

func broken(rule string, activity int) *fault.Fault {
	f := fault.New(fault.Invalid, "%s", rule)
	if activity >= 0 {
		f = f.At(fmt.Sprintf("activity %d", activity))
	}
	return f
}

// validate checks rules 1 to 4; rule 5 falls out of the numbering.
func (p *Problem) validate() error {
	n := len(p.Duration)
	if len(p.Demand) != n || len(p.Succ) != n {
		return broken(ruleLengths, -1)
	}
	total := int64(0)
	for j := range n {
		total += int64(p.Duration[j])
		if p.Duration[j] < 0 || total > longest {
			return broken(ruleDuration, j)
		}
		if err := p.validateUse(j); err != nil {
			return err
		}
	}
	return nil
}

func (p *Problem) validateUse(j int) error {
	if len(p.Demand[j]) != len(p.Capacity) {
		return broken(ruleLengths, j)
	}
	for k, d := range p.Demand[j] {
		if d < 0 || d > p.Capacity[k] {
			return broken(ruleDemand, j)
		}
	}
	for _, s := range p.Succ[j] {
		if s < 0 || int(s) >= len(p.Duration) || int(s) == j {
			return broken(ruleLinks, j)
		}
	}
	return nil
}

// number orders the activities so that each comes after all that it waits for.
func (p *Problem) number() ([]int32, error) {
	n := len(p.Duration)
	waits := make([]int32, n)
	for _, succ := range p.Succ {
		for _, s := range succ {
			waits[s]++
		}
	}
	order := make([]int32, 0, n)
	for j := range n {
		if waits[j] == 0 {
			order = append(order, int32(j))
		}
	}
	for i := 0; i < len(order); i++ {
		for _, s := range p.Succ[order[i]] {
			if waits[s]--; waits[s] == 0 {
				order = append(order, s)
			}
		}
	}
	if len(order) < n {
		for j := range n {
			if waits[j] > 0 {
				return nil, broken(ruleLoop, j)
			}
		}
	}
	return order, nil
}

// Validate checks a problem against its rules. A broken rule is a fault of kind
// Invalid that names the rule and the activity.
func Validate(p Problem) error {
	if err := p.validate(); err != nil {
		return err
	}
	_, err := p.number()
	return err
}

// LongestPath is the makespan if resources were without limit, in slots. A
// problem that breaks a rule is a fault of kind Invalid.
func LongestPath(p Problem) (int32, error) {
	n, err := compile(&p)
	if err != nil {
		return 0, err
	}
	return n.path * n.slot, nil
}
