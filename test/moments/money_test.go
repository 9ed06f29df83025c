package moments

import (
	"fmt"
	"math"
	"testing"

	"fettle/build"
	"fettle/plan"
	"fettle/takeoff"
	"fettle/unit"
)

// booked is hours of one person on one task, laid out in eight-hour days.
type booked struct {
	who   build.PersonID
	task  build.TaskID
	hours int
}

// sheet turns booked hours into day-sheet lines from 8 October on.
func sheet(list []booked) build.Change {
	var lines []build.Hours
	for _, b := range list {
		for day, left := unit.Day(2026, 10, 8), b.hours; left > 0; day++ {
			if w := day.Weekday(); w == 0 || w == 6 {
				continue
			}
			h := min(left, 8)
			lines = append(lines, build.Hours{ID: fmt.Sprintf("%s-%s-%s", b.who, b.task, day), Person: b.who, Task: b.task,
				Start: day.At(8, 0), Worked: unit.Effort(h) * unit.Hour})
			left -= h
		}
	}
	return &build.RecordHours{Hours: lines}
}

// signedOff closes the findings of floors, sills and frame, of pillars and
// gutters, and three of the sides: 186 of 310 planned hours, six in ten.
func signedOff(p plan.Plan, b build.Build) (list []build.Change, hours unit.Effort) {
	for _, f := range b.Findings {
		if f.Task == "T08" || f.Task == "T09" || f.ID == "F40" || f.ID == "F41" || f.ID == "F45" {
			list = append(list, &build.MoveFinding{Finding: f.ID, State: build.Closed})
			hours += f.Hours()
		}
	}
	return list, hours
}

func TestFridayIsTheMoneyStillRight(t *testing.T) {
	s := morning(t, "2026-10-08")
	b := s.facts()
	list, hours := signedOff(s.plan(), b)
	equal(t, "hours signed off", hours, 186*unit.Hour)
	s.now = "2026-11-06"
	asPlanned := []booked{{"MW", "T08", 86}, {"WA", "T08", 22}, {"LD", "T08", 16}, {"MW", "T09", 43}, {"LD", "T09", 6}, {"MW", "T10", 11}, {"LD", "T10", 2}}
	drifted := []booked{{"MW", "T08", 93}, {"WA", "T08", 22}, {"LD", "T08", 16}, {"MW", "T09", 54}, {"LD", "T09", 6}, {"MW", "T10", 11}, {"LD", "T10", 2}}
	steady := s.try(s.changes(append(list, sheet(asPlanned))...)).After
	late := s.try(s.changes(append(list, sheet(drifted))...)).After

	var ends float64
	for _, task := range late.Tasks {
		switch task.ID {
		case "T08", "T09", "T10", "T11":
			ends += task.Left.H()
		}
	}
	ends += 204
	if math.Abs(ends-340) > 2 {
		t.Errorf("metal ends at %.1f h, want about 340", ends)
	}
	more := late.Money.Cash - steady.Money.Cash
	if more < 850_00 || more > 1150_00 {
		t.Errorf("the drift costs %d, want about 1,000 pounds", more/100)
	}
	if net := late.Money.Net.Expected; net < 40600_00 || net > 40900_00 {
		t.Errorf("net = %d, want about 40,750", net/100)
	}
	if late.Money.Net.Expected <= late.Money.Aim {
		t.Error("the net has fallen below the aim")
	}
	equal(t, "net without the drift", steady.Money.Net.Expected, unit.Money(41760_00))
	near(t, "half by", late.Dates.P50, steady.Dates.P50+3)
	worst := takeoff.Pace{}
	for _, p := range late.Pace {
		if p.Task != "" && p.Factor > worst.Factor {
			worst = p
		}
	}
	equal(t, "the task that ran over", worst.Task, build.TaskID("T09"))
	equal(t, "by so much", fmt.Sprintf("%.2f", worst.Factor), "1.22")
}

func TestTreasurersQuestion(t *testing.T) {
	s := morning(t, "2027-03-13")
	m := s.plan().Money
	for _, c := range []struct {
		what      string
		got, want unit.Money
	}{
		{"gifts", m.Income, 38650_00}, {"cash", m.Cash, 52570_00}, {"spent", m.Spent, 52570_00},
		{"net", m.Net.Expected, 41760_00}, {"gifts in kind", m.InKind, 19301_00},
	} {
		equal(t, c.what, c.got, c.want)
	}
	var given unit.Effort
	for _, who := range s.plan().People {
		given += who.Given
	}
	equal(t, "hours given", given, 362*unit.Hour)
	for _, l := range append(m.Lines, m.InKinds...) {
		if len(l.Figure.Inputs) == 0 {
			t.Errorf("%s opens no receipt", l.Name)
		}
	}
}

// facts returns the build as an export holds it.
func (s shop) facts() build.Build {
	file := decode[struct {
		Build build.Build `json:"build"`
	}](s.t, s.run("export", "pedlar", "--facts"))
	return file.Build
}
