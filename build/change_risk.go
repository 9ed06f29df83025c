package build

import (
	"fmt"
	"slices"
)

// JudgeEvent says what may happen to a task, how likely that is and what it
// costs. An event that is known already is judged anew.
type JudgeEvent struct {
	Event Event `json:"event"`
}

// Kind names the act.
func (c *JudgeEvent) Kind() string { return "judge-event" }

// Say tells what the change does.
func (c *JudgeEvent) Say(*Build) string {
	if c.Event.Chance == 0 {
		return fmt.Sprintf("%s %s is not judged yet", c.Event.ID, c.Event.What)
	}
	return fmt.Sprintf("%s %s: %.0f in 100", c.Event.ID, c.Event.What, 100*c.Event.Chance)
}

// Apply adds the event, or puts it in the place of the one it judges anew.
func (c *JudgeEvent) Apply(b *Build) error {
	e := c.Event
	if e.ID == "" {
		return rule(ruleID, "the event has no number").At("event")
	}
	if known := b.Event(e.ID); known != nil && !known.Open() {
		return rule(ruleOrder, "it has %s already", known.State).At("event " + string(e.ID))
	}
	if !e.Open() {
		return rule(ruleOrder, "whether it happened is settled by itself").At("event " + string(e.ID) + ", state")
	}
	if err := b.checkEvent(e); err != nil {
		return err
	}
	list := slices.DeleteFunc(slices.Clone(b.Risk.Events), func(o Event) bool { return o.ID == e.ID })
	b.Risk.Events = append(list, e)
	return nil
}

// SettleEvent says whether an event happened. Either way it may not happen any
// more: what it cost is recorded as hours, findings and hours left.
type SettleEvent struct {
	Event    EventID `json:"event"`
	Happened bool    `json:"happened"`
}

// Kind names the act.
func (c *SettleEvent) Kind() string { return "settle-event" }

// Say tells what the change does.
func (c *SettleEvent) Say(b *Build) string {
	what := string(c.Event)
	if e := b.Event(c.Event); e != nil {
		what += " " + e.What
	}
	if c.Happened {
		return what + " happened"
	}
	return what + " did not happen"
}

// Apply sets the state.
func (c *SettleEvent) Apply(b *Build) error {
	e := b.Event(c.Event)
	if e == nil {
		return missing("event", c.Event)
	}
	if !e.Open() {
		return rule(ruleOrder, "it has %s already", e.State).At("event " + string(c.Event))
	}
	list := slices.Clone(b.Risk.Events)
	for i := range list {
		if list[i].ID != c.Event {
			continue
		}
		list[i].State = Passed
		if c.Happened {
			list[i].State = Happened
		}
	}
	b.Risk.Events = list
	return nil
}

// JudgeRange says how far something runs from the plan, as the shop judges
// before it has records: working days by which parts come after the day
// promised, or how people differ in what work takes them, 1 being as planned.
// A range of noughts is not judged yet.
type JudgeRange struct {
	Of     RangeOf `json:"of"`
	Range  Span    `json:"range"`
	Source string  `json:"source"`
}

// RangeOf is what a range is of.
type RangeOf string

// What may be judged.
const (
	OfLateParts RangeOf = "late parts"
	OfPeople    RangeOf = "people"
)

// Kind names the act.
func (c *JudgeRange) Kind() string { return "judge-range" }

// Say tells what the change does.
func (c *JudgeRange) Say(*Build) string {
	if c.Range == (Span{}) {
		return fmt.Sprintf("The range of %s is not judged yet", c.Of)
	}
	return fmt.Sprintf("The range of %s is judged: %v to %v, mostly %v", c.Of, c.Range.Low, c.Range.High, c.Range.Mode)
}

// Apply sets the range.
func (c *JudgeRange) Apply(b *Build) error {
	if err := oneOf(c.Of, []RangeOf{OfLateParts, OfPeople}, "range, of"); err != nil {
		return err
	}
	risk := b.Risk
	if c.Of == OfPeople {
		risk.People = Judged{c.Range, c.Source}
	} else {
		risk.Late = Judged{c.Range, c.Source}
	}
	if err := checkJudged(risk); err != nil {
		return err
	}
	b.Risk = risk
	return nil
}

// mostTimes is how often an event may strike.
const mostTimes = 5

func (b *Build) checkEvent(e Event) error {
	where := "event " + string(e.ID)
	if b.Task(e.Task) == nil {
		return at(missing("task", e.Task), where)
	}
	if !(e.Chance >= 0 && e.Chance <= 1) {
		return rule(ruleRange, "the chance is not between 0 and 1").At(where + ", chance")
	}
	if e.State != "" {
		if err := oneOf(e.State, []EventState{MayHappen, Happened, Passed}, where+", state"); err != nil {
			return err
		}
	}
	return first(needText(e.What, where+", what"), b.checkLegs(e.Work, where+", hours"),
		inRange(e.Days, 0, mostDays, "days", where+", days"), inRange(e.Times, 0, mostTimes, "times", where+", times"))
}

func (b *Build) checkEvents() error {
	for i, e := range b.Risk.Events {
		if e.ID == "" || slices.ContainsFunc(b.Risk.Events[:i], func(o Event) bool { return o.ID == e.ID }) {
			return rule(ruleID, "the ID is missing or taken").At(fmt.Sprintf("event %d %s", i+1, e.ID))
		}
		if err := b.checkEvent(e); err != nil {
			return err
		}
	}
	return checkJudged(b.Risk)
}

func checkJudged(r Risk) error {
	if s := r.Late.Range; !(s.Low >= 0 && s.Mode >= s.Low && s.High >= s.Mode && s.High <= mostDays) {
		return rule(ruleRange, "low, mode and high must rise from zero").At("risk, late_parts")
	}
	if s := r.People.Range; r.People.Given() && !(s.Low > 0 && s.Mode >= s.Low && s.High >= s.Mode && s.High <= 20) {
		return rule(ruleRange, "low, mode and high must rise from above zero").At("risk, people")
	}
	return nil
}
