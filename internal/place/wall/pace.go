package wall

import (
	"fmt"
	"math"

	"fettle/build"
	"fettle/internal/live"
	"fettle/plan"
	"fettle/takeoff"
	"fettle/unit"
)

// paceRow is how the hours of a stage or a trade ran against the plan.
type paceRow struct {
	What   string
	Factor string // such as 1.22 ×
	Says   string
	Cause  string // empty when the pace is as planned
}

// offPace is how far from the plan a pace must be before its cause is named.
const offPace = 0.05

// paces lists the pace of signed-off findings by stage, then of finished tasks
// by trade.
func paces(p *plan.Plan, v live.View) []paceRow {
	var rows []paceRow
	for _, one := range p.Pace {
		if one.Task == "" && one.Signed > 0 {
			rows = append(rows, stagePace(p, v, one))
		}
	}
	for _, t := range v.Build.Trades {
		if row, ok := tradePace(p, v, t); ok {
			rows = append(rows, row)
		}
	}
	return rows
}

func stagePace(p *plan.Plan, v live.View, whole takeoff.Pace) paceRow {
	share := 100 * whole.Signed.H() / whole.Total.H()
	row := paceRow{What: upper(whole.Stage) + ", findings signed off", Factor: times(whole.Booked, whole.Signed),
		Says: fmt.Sprintf("%s booked against %s planned; %.0f %% signed off", whole.Booked, whole.Signed, share)}
	var worst spent
	for _, one := range p.Pace {
		if one.Task != "" && one.Stage == whole.Stage {
			worst = worst.further(spent{one.Task, one.Signed, one.Booked})
		}
	}
	row.Cause = worst.cause(v, whole.Booked, whole.Signed)
	return row
}

// tradePace compares the hours booked and planned of a trade on its finished
// tasks.
func tradePace(p *plan.Plan, v live.View, t build.Trade) (paceRow, bool) {
	var sum, worst spent
	for _, task := range p.Tasks {
		if task.State != build.Finished {
			continue
		}
		for _, l := range task.Legs {
			if l.Trade == t.ID && l.Planned > 0 {
				one := spent{task.ID, l.Planned, bookedBy(&v.Build, task.ID, t.ID)}
				sum.planned, sum.booked = sum.planned+one.planned, sum.booked+one.booked
				worst = worst.further(one)
			}
		}
	}
	row := paceRow{What: t.Name + ", finished tasks", Factor: times(sum.booked, sum.planned),
		Says: fmt.Sprintf("%s booked against %s planned", sum.booked, sum.planned), Cause: worst.cause(v, sum.booked, sum.planned)}
	return row, sum.planned > 0
}

// spent is what a task took against its plan.
type spent struct {
	task            build.TaskID
	planned, booked unit.Effort
}

// further returns the one that is further from its plan.
func (s spent) further(o spent) spent {
	if math.Abs(float64(o.booked-o.planned)) > math.Abs(float64(s.booked-s.planned)) {
		return o
	}
	return s
}

// cause names the task behind a pace that is off.
func (s spent) cause(v live.View, booked, planned unit.Effort) string {
	off := booked.H()/planned.H() - 1
	if s.task == "" || math.Abs(off) < offPace || (off > 0) != (s.booked > s.planned) {
		return ""
	}
	t := v.Build.Task(s.task)
	return fmt.Sprintf("%s %s ran %s (%s for %s)", t.ID, t.Name, times(s.booked, s.planned), s.booked, s.planned)
}

func bookedBy(b *build.Build, task build.TaskID, trade build.TradeID) unit.Effort {
	var sum unit.Effort
	for _, h := range b.Hours {
		if p := b.Person(h.Person); h.Task == task && p != nil && len(p.Trades) > 0 && p.Trades[0] == trade {
			sum += h.Worked
		}
	}
	return sum
}

// times writes a ratio such as "1.22 ×".
func times(a, b unit.Effort) string {
	if b == 0 {
		return "–"
	}
	return fmt.Sprintf("%.2f ×", a.H()/b.H())
}
