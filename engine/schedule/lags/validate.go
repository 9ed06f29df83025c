package lags

import (
	"fmt"

	"fettle/fault"
)

// The rules of a problem. A fault names its rule by this number.
const (
	ruleShape  = 1 + iota // a row of demand per activity, a column per resource
	ruleAmount            // durations, demands and capacities are from 0 to 2^24, lags within +-2^24
	ruleIndex             // a lag joins two activities there are
	ruleSpan              // durations and positive lags add up to less than 2^28
)

const (
	largest = 1 << 24
	longest = 1 << 28
)

func broken(rule int, where, format string, args ...any) *fault.Fault {
	f := fault.New(fault.Invalid, format, args...)
	f.Msg = fmt.Sprintf("lags rule %d: %s", rule, f.Msg)
	return f.At(where)
}

// validate checks every rule once and stops at the first that fails.
func validate(p *Problem) error {
	if err := checkShape(p); err != nil {
		return err
	}
	if err := checkAmounts(p); err != nil {
		return err
	}
	return checkLags(p)
}

func checkShape(p *Problem) error {
	if len(p.Demand) != len(p.Duration) {
		return broken(ruleShape, "demand", "%d rows for %d activities", len(p.Demand), len(p.Duration))
	}
	for i, row := range p.Demand {
		if len(row) != len(p.Capacity) {
			return broken(ruleShape, activity(i), "%d demands for %d resources", len(row), len(p.Capacity))
		}
	}
	return nil
}

func checkAmounts(p *Problem) error {
	for q, c := range p.Capacity {
		if c < 0 || c > largest {
			return broken(ruleAmount, fmt.Sprintf("resource %d", q), "capacity %d", c)
		}
	}
	for i, d := range p.Duration {
		if d < 0 || d > largest {
			return broken(ruleAmount, activity(i), "duration %d", d)
		}
		for q, r := range p.Demand[i] {
			if r < 0 || r > largest {
				return broken(ruleAmount, activity(i), "demand %d on resource %d", r, q)
			}
		}
	}
	return nil
}

func checkLags(p *Problem) error {
	n := len(p.Duration)
	for k, l := range p.Lags {
		if min(l.From, l.To) < 0 || max(l.From, l.To) >= n {
			return broken(ruleIndex, lagName(k), "from %d to %d among %d activities", l.From, l.To, n)
		}
		if l.Min < -largest || l.Min > largest {
			return broken(ruleAmount, lagName(k), "lag of %d", l.Min)
		}
	}
	if h := horizon(p); h >= longest {
		return broken(ruleSpan, "durations and lags", "%d slots in a row", h)
	}
	return nil
}

func activity(i int) string { return fmt.Sprintf("activity %d", i) }

func lagName(k int) string { return fmt.Sprintf("lag %d", k) }

// horizon is a makespan within which there is a schedule if there is any:
// should a slot be covered by no activity nor by a positive lag out of one,
// everything after it can move one slot to the left.
func horizon(p *Problem) int {
	reach := append([]int(nil), p.Duration...)
	for _, l := range p.Lags {
		reach[l.From] = max(reach[l.From], l.Min)
	}
	h := 0
	for _, r := range reach {
		h += r
	}
	return h
}
