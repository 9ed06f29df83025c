package takeoff

import (
	"fettle/build"
	"fettle/unit"
)

// Pace is how the hours booked on closed findings compare with the plan.
type Pace struct {
	Stage  string       `json:"stage"`
	Task   build.TaskID `json:"task,omitempty"` // empty for a whole stage
	Signed unit.Effort  `json:"signed_h"`       // planned hours of closed findings
	Booked unit.Effort  `json:"booked_h"`       // hours booked, less those on open findings
	Total  unit.Effort  `json:"total_h"`        // planned hours of all findings
	Factor float64      `json:"factor"`         // Booked ÷ Signed, or 1 while too little is signed off
}

// Before so many hours, and so much of the whole, are signed off, a pace says
// nothing. A trade default: two days' work and a fifth of it.
const (
	leastSigned = 16 * unit.Hour
	leastShare  = 5
)

// PaceOf returns the pace of a stage over all its tasks with findings.
func PaceOf(b *build.Build, stage string) Pace {
	sum := Pace{Stage: stage}
	for _, t := range b.Tasks {
		if t.Findings && t.Stage == stage {
			p := tally(b, t)
			sum.Signed, sum.Booked, sum.Total = sum.Signed+p.Signed, sum.Booked+p.Booked, sum.Total+p.Total
		}
	}
	return sum.settle()
}

// Paces returns the pace of every task with findings in a stage.
func Paces(b *build.Build, stage string) []Pace {
	var list []Pace
	for _, t := range b.Tasks {
		if t.Findings && t.Stage == stage {
			list = append(list, tally(b, t).settle())
		}
	}
	return list
}

// tally counts one task. While nothing of it is signed off, the hours booked
// on it are work under way and say nothing of the pace.
func tally(b *build.Build, t build.Task) Pace {
	p := Pace{Stage: t.Stage, Task: t.ID, Signed: build.Total(signedLegs(b, t.ID)), Total: build.Total(plannedLegs(b, t))}
	if p.Signed > 0 {
		p.Booked = build.Total(bookedLegs(b, t.ID)) - build.Total(openLegs(b, t.ID))
	}
	return p
}

func (p Pace) settle() Pace {
	p.Factor = 1
	if p.Signed >= leastSigned && p.Signed*leastShare >= p.Total {
		p.Factor = float64(p.Booked) / float64(p.Signed)
	}
	return p
}
