package takeoff

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/unit"
)

// workOf returns the lines of work of a task, one for each trade, in the
// order in which trades first appear.
func workOf(b *build.Build, t build.Task, p Pace) []Work {
	planned := plannedLegs(b, t)
	for _, l := range t.Left {
		planned = add(planned, l.Trade, 0) // a trade that nobody planned may be said to be needed
	}
	booked := bookedLegs(b, t.ID)
	var lines []Work
	for _, leg := range planned {
		line := Work{Task: t.ID, Trade: leg.Trade, Planned: leg.Hours, Pace: 1, Cautions: t.Caution}
		if t.Findings {
			line.Pace, line.FromFindings = p.Factor, true
			line.Because = findingsOf(b, t.ID)
		}
		line.Open, line.Begun = openOf(b, t, leg, booked, line.Pace)
		line.Left = max(line.Open-line.Begun, 0)
		line.Figure = workFigure(b, t, leg, line, of(booked, leg.Trade))
		lines = append(lines, line)
	}
	return lines
}

// plannedLegs returns what a task needs in all: the hours of its findings, or
// its own legs for what is counted, and those of paint done again; then the hours moved between
// trades, less those sublet.
func plannedLegs(b *build.Build, t build.Task) []build.Leg {
	legs := counted(b, t)
	if t.Findings {
		legs = findingLegs(b, t)
	}
	for _, l := range b.RedoLegs(t.ID) {
		legs = add(legs, l.Trade, l.Hours)
	}
	for _, m := range b.Moves {
		if m.Task != t.ID {
			continue
		}
		moved := min(m.Hours, of(legs, m.From))
		legs = add(add(legs, m.From, -moved), m.To, moved)
	}
	for _, s := range b.Sublets {
		if s.Task != t.ID {
			continue
		}
		for _, l := range s.Legs {
			legs = add(legs, l.Trade, -min(l.Hours, of(legs, l.Trade)))
		}
	}
	return legs
}

// findingLegs sums the remedies of a task's findings. While the guess of the
// task stands, no trade is reckoned with less than the guess.
func findingLegs(b *build.Build, t build.Task) []build.Leg {
	var legs []build.Leg
	for _, l := range t.Legs {
		legs = add(legs, l.Trade, 0)
	}
	for _, f := range b.Findings {
		if f.Task != t.ID {
			continue
		}
		for _, l := range f.Work {
			legs = add(legs, l.Trade, l.Hours)
		}
	}
	if sweep := b.Task(t.Guess); sweep != nil && sweep.State == build.Finished {
		return legs
	}
	for i, l := range legs {
		legs[i].Hours = max(l.Hours, of(t.Legs, l.Trade))
	}
	return legs
}

// openOf reckons the hours of a trade in a task that are not signed off, and how
// many of them are worked already.
func openOf(b *build.Build, t build.Task, leg build.Leg, booked []build.Leg, pace float64) (open, begun unit.Effort) {
	switch {
	case t.State == build.Finished:
		return 0, 0
	case t.LeftSaid:
		return of(t.Left, leg.Trade), 0
	case !t.Findings:
		return leg.Hours, of(booked, leg.Trade)
	}
	signed := signedLegs(b, t.ID)
	open = scale(leg.Hours-min(of(signed, leg.Trade), leg.Hours), pace)
	if len(signed) > 0 {
		return open, of(openLegs(b, t.ID), leg.Trade)
	}
	return open, of(booked, leg.Trade)
}

// bookedLegs sums the hours booked on a task by the own trade of whoever
// worked them.
func bookedLegs(b *build.Build, id build.TaskID) []build.Leg {
	return hoursBy(b, func(h build.Hours) bool { return h.Task == id })
}

// openLegs sums the hours booked on findings of a task that are not closed.
func openLegs(b *build.Build, id build.TaskID) []build.Leg {
	return hoursBy(b, func(h build.Hours) bool {
		f := b.Finding(h.Finding)
		return h.Task == id && f != nil && f.State != build.Closed
	})
}

// signedLegs sums the planned hours of a task's closed findings.
func signedLegs(b *build.Build, id build.TaskID) []build.Leg {
	var legs []build.Leg
	for _, f := range b.Findings {
		if f.Task == id && f.State == build.Closed {
			for _, l := range f.Work {
				legs = add(legs, l.Trade, l.Hours)
			}
		}
	}
	return legs
}

func hoursBy(b *build.Build, counts func(build.Hours) bool) []build.Leg {
	var legs []build.Leg
	for _, h := range b.Hours {
		if !counts(h) {
			continue
		}
		if p := b.Person(h.Person); p != nil && len(p.Trades) > 0 {
			legs = add(legs, p.Trades[0], h.Worked)
		}
	}
	return legs
}

func of(legs []build.Leg, t build.TradeID) unit.Effort {
	for _, l := range legs {
		if l.Trade == t {
			return l.Hours
		}
	}
	return 0
}

func add(legs []build.Leg, t build.TradeID, hours unit.Effort) []build.Leg {
	for i := range legs {
		if legs[i].Trade == t {
			legs[i].Hours += hours
			return legs
		}
	}
	return append(legs, build.Leg{Trade: t, Hours: hours})
}

func scale(e unit.Effort, factor float64) unit.Effort {
	return unit.Hours(e.H() * factor)
}

func findingsOf(b *build.Build, id build.TaskID) []string {
	var links []string
	for _, f := range b.Findings {
		if f.Task == id && f.Hours() > 0 {
			links = append(links, "finding/"+string(f.ID))
		}
	}
	return links
}

// workFigure shows how the hours of a line came about.
func workFigure(b *build.Build, t build.Task, leg build.Leg, w Work, booked unit.Effort) figure.Figure {
	f := figure.Figure{
		Name:    fmt.Sprintf("%s in %s %s", leg.Trade, t.ID, t.Name),
		Text:    w.Left.String(),
		Formula: "hours planned less hours booked",
		With:    fmt.Sprintf("%s planned, %s booked, %s left", w.Planned, booked, w.Left),
		Caution: strings.Join(t.Caution, " "),
	}
	if t.LeftSaid {
		f.Formula = "hours left as said by whoever does the work"
	}
	redone, again := redoInputs(b, t.ID, leg.Trade)
	if !t.Findings {
		own := leg.Hours - again
		f.Inputs = append([]figure.Input{{Name: "planned", Value: own.String(), Source: figure.Decided, Note: "task list", Link: "task/" + string(t.ID)}}, redone...)
		if !t.LeftSaid {
			countedFigure(b, t, leg.Trade, &f)
		}
		return f
	}
	f.Formula = "hours of findings not closed, times pace, less hours already in them"
	f.Inputs = append(f.Inputs, figure.Input{Name: "pace", Value: unit.FormatDecimal(int64(w.Pace*100+0.5), 2, 2), Source: figure.Worked, Note: "booked ÷ planned on closed findings"})
	for _, found := range b.Findings {
		if hours := of(found.Work, leg.Trade); found.Task == t.ID && hours > 0 {
			f.Inputs = append(f.Inputs, figure.Input{Name: string(found.ID) + " " + found.What, Value: hours.String(),
				Source: figure.Decided, Note: string(found.State), Link: "finding/" + string(found.ID)})
		}
	}
	f.Inputs = append(f.Inputs, redone...)
	return f
}

// redoInputs are the hours of a trade for paint done again in a task, and their sum.
func redoInputs(b *build.Build, id build.TaskID, trade build.TradeID) (list []figure.Input, sum unit.Effort) {
	for _, r := range b.Redos {
		for _, l := range r.Work {
			if r.Task == id && l.Trade == trade {
				sum += l.Hours
				list = append(list, figure.Input{Name: "painted again", Value: l.Hours.String(), Source: figure.Decided, Note: r.Why})
			}
		}
	}
	return list, sum
}
