package plan

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"fettle/engine/schedule"
	"fettle/figure"
	"fettle/unit"
)

// begun is the work under way.
func (f *folding) begun() []ClashLine {
	var says []string
	for _, one := range f.of(schedule.FactStarted) {
		says = append(says, fmt.Sprintf("%s has %s to go", f.taskLabel(one.Activity), unit.Effort(one.Length)))
	}
	return f.line("begun", "Under way", says, len(says))
}

// granted is work that is taken for granted, and that no link leads to: what is
// too long for the day by itself, else what only the people named can do.
func (f *folding) granted(ctx context.Context) ([]ClashLine, error) {
	if len(f.after) > 0 {
		return nil, nil
	}
	var long []string
	for j, a := range f.problem.Activities {
		held := slices.Contains(f.does[f.task(j)], j) && a.Release >= f.problem.Goal // by its part alone
		if a.Work == 0 || held {
			continue
		}
		times, err := f.only(ctx, func(i int) bool { return i == j })
		if err != nil {
			return nil, err
		}
		if times[j].Finish > f.problem.Goal {
			long = append(long, f.takes(j))
		}
	}
	if len(long) > 0 {
		return f.line("work", "Too long by itself", long[:min(3, len(long))], 0), nil
	}
	var theirs unit.Effort
	for _, a := range f.problem.Activities {
		if a.Kind == schedule.Labour && !slices.ContainsFunc(a.Who, func(p int) bool { return !f.named(p) }) {
			theirs += unit.Effort(a.Work)
		}
	}
	if theirs == 0 {
		return nil, nil
	}
	return f.line("work", "Work for them", []string{theirs.String() + " that nobody else can do"}, 0), nil
}

// takes says how long an activity is.
func (f *folding) takes(j int) string {
	a := f.problem.Activities[j]
	if a.Kind == schedule.Passive {
		return fmt.Sprintf("%s waits %s", f.taskLabel(j), WorkingDays(waitDays(a.Work)))
	}
	return fmt.Sprintf("%s needs %s of %s", f.taskLabel(j), unit.Effort(a.Work), f.hands(a))
}

// named says that a person's hours are among the facts.
func (f *folding) named(person int) bool {
	return slices.ContainsFunc(f.of(schedule.FactHours), func(one schedule.Fact) bool { return one.Person == person })
}

// parts is what may not begin or end before a day.
func (f *folding) parts() []ClashLine {
	var says []string
	facts := f.of(schedule.FactRelease)
	for _, one := range facts {
		id, day := f.task(one.Activity), f.moment(one.At).Date()
		text := fmt.Sprintf("%s not before %s", f.taskLabel(one.Activity), onDay(day))
		var parts []string
		for _, o := range f.base.Orders {
			if o.Task == id && o.There == day {
				parts = append(parts, string(o.Part)+" "+o.Name)
			}
		}
		if len(parts) > 0 {
			text += ", for " + strings.Join(parts, ", ")
		} else if f.build.Task(id).NoEarly == day {
			text += ", as it is held"
		}
		if !slices.Contains(says, text) {
			says = append(says, text)
		}
	}
	return f.line("parts", "Parts and holds", says, len(facts))
}

// hours are the people who work their own hours and no others.
func (f *folding) hours() []ClashLine {
	facts := f.of(schedule.FactHours)
	var says []string
	fig := figure.Figure{Name: "hours until the day", Formula: "hours that these people have from now to the end of the day asked about: their week, less closures and absences, with the overtime given"}
	var sum unit.Effort
	var terms []string
	for _, one := range facts {
		who := f.build.People[one.Person]
		has := f.until(one.Person)
		sum += has
		terms = append(terms, has.String())
		says = append(says, fmt.Sprintf("%s %s a week", who.Name, who.PerWeek()))
		fig.Inputs = append(fig.Inputs, figure.Input{Name: who.Name, Value: has.String(), Source: figure.Decided, Note: who.PerWeek().String() + " in a plain week", Link: "people"})
	}
	lines := f.line("hours", "Nobody works more than their own hours", says, len(facts))
	if len(lines) > 0 {
		fig.Text, fig.With = sum.String(), strings.Join(terms, " + ")+" = "+sum.String()
		lines[0].Figure = fig
	}
	return lines
}

// until is how many hours somebody has until the day is over.
func (f *folding) until(person int) unit.Effort {
	var sum schedule.Minute
	for _, w := range f.problem.Calendars[f.problem.People[person].Calendar] {
		sum += max(0, min(w.To, f.problem.Goal)-max(w.From, f.problem.Now))
	}
	return unit.Effort(sum)
}

// away are closures, absences and long gaps in people's weeks.
func (f *folding) away() []ClashLine {
	facts := f.of(schedule.FactAway)
	var says []string
	for _, one := range facts {
		if text := f.gap(one); !slices.Contains(says, text) {
			says = append(says, text)
		}
	}
	return f.line("away", "Days without work", says, len(facts))
}

// gap says why somebody is not there: closed, away, or not in their week.
func (f *folding) gap(one schedule.Fact) string {
	who, first, last := f.build.People[one.Person], f.day(one.Window.From)+1, f.moment(one.Window.To).Date()-1
	for _, c := range f.build.Closures {
		if c.First <= last && first <= c.Last {
			return "the shop is closed " + fromTo(c.First, c.Last) + because(c.Why)
		}
	}
	for _, a := range f.build.Absences {
		if a.Person == who.ID && a.First <= last && first <= a.Last {
			return who.Name + " is away " + fromTo(a.First, a.Last) + because(a.Why)
		}
	}
	return who.Name + " has no hours " + fromTo(first, last)
}

func because(why string) string {
	if why == "" {
		return ""
	}
	return " (" + why + ")"
}

func onDay(d unit.Date) string { return d.Time().Format("Mon 2 Jan 2006") }

func fromTo(first, last unit.Date) string {
	if first >= last {
		return onDay(first)
	}
	return first.Time().Format("Mon 2 Jan") + " to " + onDay(last)
}

// rest are places, the shop's habits, and what no build has yet.
func (f *folding) rest() []ClashLine {
	var places, habits, other []string
	for _, one := range f.facts {
		switch one.Kind {
		case schedule.FactPlace:
			b := f.build.Bays[one.Place]
			places = append(places, fmt.Sprintf("%s takes %d at a time", b.Name, b.Units))
		case schedule.FactCalendar:
			if one.Calendar == f.shopDays {
				habits = append(habits, "waits count working days only")
			} else {
				habits = append(habits, "what is handed on is taken up the next morning")
			}
		case schedule.FactPin, schedule.FactMaxLag:
			other = append(other, f.taskLabel(one.Activity)+": "+one.String())
		}
	}
	return slices.Concat(f.line("place", "Room", places, len(places)), f.line("habit", "How the shop works", habits, len(habits)), f.line("fixed", "Fixed", other, len(other)))
}

func (f *folding) of(k schedule.FactKind) []schedule.Fact {
	var list []schedule.Fact
	for _, one := range f.facts {
		if one.Kind == k {
			list = append(list, one)
		}
	}
	return list
}

// line joins what is said of one kind; nothing makes no line.
func (f *folding) line(kind, head string, says []string, facts int) []ClashLine {
	if len(says) == 0 {
		return nil
	}
	return []ClashLine{{Kind: kind, Head: head, Says: upper(strings.Join(says, "; ")), Facts: facts}}
}
