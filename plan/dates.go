package plan

import (
	"fmt"
	"math"

	"fettle/engine/schedule"
	"fettle/figure"
	"fettle/unit"
)

// Dates are the days on which everything is finished.
type Dates struct {
	Plain  unit.Date     `json:"plain"` // if all goes as planned
	P50    unit.Date     `json:"p50"`
	P80    unit.Date     `json:"p80"`
	P90    unit.Date     `json:"p90"`
	Figure figure.Figure `json:"working"`
}

// Odds are the chances of the promised day.
type Odds struct {
	Ready  float64       `json:"ready"`     // chance of being ready on the promised day, 0 to 1
	StdErr float64       `json:"std_error"` // of Ready: the sampling error of so many runs
	Word   string        `json:"word"`      // safe, tight, slipping or lost
	Runs   int           `json:"runs"`
	Seed   uint64        `json:"seed"`
	Curve  []OddsPoint   `json:"curve"`
	Figure figure.Figure `json:"working"`
}

// OddsPoint is the chance of being finished by the end of a day.
type OddsPoint struct {
	Day    unit.Date `json:"day"`
	Chance float64   `json:"chance"`
}

func datesOf(n *net, res schedule.Result, odds schedule.Outlook, o Options) Dates {
	if last, over := n.over(); over {
		return Dates{Plain: last, P50: last, P80: last, P90: last, Figure: figure.Figure{Name: "date", Text: last.Short(),
			Formula: "the day the last task was finished; today where there are no tasks", With: last.Long(),
			Inputs: []figure.Input{{Name: "tasks", Value: "none open", Source: figure.Measured}}}}
	}
	d := Dates{Plain: n.day(res.Makespan), P50: n.day(odds.Quantile(0.5)), P80: n.day(odds.Quantile(0.8)), P90: n.day(odds.Quantile(0.9))}
	d.Figure = figure.Figure{
		Name: "date", Text: fmt.Sprintf("%s, 4 in 5 by %s", d.P50.Short(), d.P80.Short()),
		Formula: "the middle of the finishes of many played builds; four in five are finished by the second date",
		With: fmt.Sprintf("%d builds played, seed %d: half are finished by %s, 80 %% by %s, 90 %% by %s; if nothing runs over, %s",
			o.Runs, o.Seed, n.within(odds, 0.5), n.within(odds, 0.8), n.within(odds, 0.9), d.Plain.Short()),
		Inputs:  riskInputs(n, odds),
		Caution: "The players never re-plan, a shop does: late finishes are drawn too dark. What nobody has thought of is in no figure.",
	}
	return d
}

// within is a day of the odds with its sampling error: the days between which
// it lies for 19 of 20 seeds, where that is more than one.
func (n *net) within(odds schedule.Outlook, q float64) string {
	low, high := odds.Between(q)
	day, first, last := n.day(odds.Quantile(q)), n.day(low), n.day(high)
	if first == last {
		return day.Short()
	}
	return fmt.Sprintf("%s (%s to %s by other luck)", day.Short(), first.Short(), last.Short())
}

func oddsOf(n *net, odds schedule.Outlook, o Options) Odds {
	chance, stdErr := odds.Chance(n.problem.Goal)
	last, over := n.over()
	if over {
		chance, stdErr = 0, 0
		if last <= n.build.Promise.Ready {
			chance = 1
		}
	}
	res := Odds{Ready: round4(chance), StdErr: round4(stdErr), Word: WordOf(chance), Runs: o.Runs, Seed: o.Seed, Curve: []OddsPoint{{last, 1}}}
	if !over {
		res.Curve = n.curve(odds)
	}
	res.Figure = figure.Figure{
		Name: "odds of " + n.build.Promise.Ready.Long(), Text: fmt.Sprintf("%.0f %% ± %.0f", 100*chance, math.Ceil(100*stdErr)),
		Formula: "played builds that are finished by the end of the promised day ÷ played builds",
		With:    fmt.Sprintf("%d of %d, seed %d; sampling error ± %.1f points", int(math.Round(chance*float64(o.Runs))), o.Runs, o.Seed, 100*stdErr),
		Inputs:  riskInputs(n, odds),
		Caution: "Near the promised day one working day may be worth 15 to 20 points.",
	}
	return res
}

// curve returns the chances of the working days from the first finish to the
// last; nothing where some played builds do not finish.
func (n *net) curve(odds schedule.Outlook) []OddsPoint {
	var list []OddsPoint
	first, last := n.day(odds.Quantile(0.001)), n.day(odds.Quantile(0.999))
	if first == 0 || last == 0 {
		return nil
	}
	for d := first - 1; d <= last; d++ {
		if at, _ := odds.Chance(n.endOf(d)); n.works(d) || d == first-1 {
			list = append(list, OddsPoint{d, round4(at)})
		}
	}
	return list
}

// over reports whether no task is open, and the day the last one was finished:
// today, where there are none.
func (n *net) over() (last unit.Date, over bool) {
	for _, t := range n.build.Tasks {
		last = max(last, t.Ended)
	}
	if last == 0 {
		last = n.now.Date()
	}
	return last, len(n.problem.Activities) == 0
}

// WordOf puts a chance of the promised day into one of four words.
func WordOf(chance float64) string {
	switch {
	case chance >= 0.8:
		return "safe"
	case chance >= 0.5:
		return "tight"
	case chance >= 0.1:
		return "slipping"
	}
	return "lost"
}

// round4 keeps four decimals, so that a chance reads and compares plainly.
func round4(x float64) float64 { return math.Round(x*10_000) / 10_000 }
