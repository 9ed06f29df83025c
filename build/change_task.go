package build

import (
	"fmt"

	"fettle/unit"
)

// AddTask adds a task at the end of the list.
type AddTask struct {
	Task Task `json:"task"`
}

// Kind names the act.
func (c *AddTask) Kind() string { return "add-task" }

// Say tells what the change does.
func (c *AddTask) Say(*Build) string { return fmt.Sprintf("Task %s added: %s", c.Task.ID, c.Task.Name) }

// Apply adds the task and refuses a loop.
func (c *AddTask) Apply(b *Build) error {
	t := c.Task
	if t.State == "" {
		t.State = NotBegun
	}
	if t.ID == "" || b.Task(t.ID) != nil {
		return rule(ruleID, "the number is missing or taken").At("task " + string(t.ID))
	}
	tried := b.Clone()
	tried.Tasks = append(tried.Tasks, t)
	if err := tried.checkTask(t); err != nil {
		return err
	}
	if err := tried.checkLoops(); err != nil { // only where all tasks it names exist
		return err
	}
	b.Tasks = tried.Tasks
	return nil
}

// BeginTask says that work on a task has begun.
type BeginTask struct {
	Task TaskID    `json:"task"`
	Day  unit.Date `json:"day"`
}

// Kind names the act.
func (c *BeginTask) Kind() string { return "begin-task" }

// Say tells what the change does.
func (c *BeginTask) Say(b *Build) string { return b.taskName(c.Task) + " begun" }

// Apply moves the task from not begun to begun.
func (c *BeginTask) Apply(b *Build) error {
	t := b.Task(c.Task)
	switch {
	case t == nil:
		return missing("task", c.Task)
	case t.State != NotBegun:
		return rule(ruleOrder, "the task is %s already", t.State).At("task " + string(c.Task))
	case c.Day == 0:
		return rule(ruleDates, "the day is missing").At("task " + string(c.Task) + ", day")
	}
	t.State, t.Began = Begun, c.Day
	return nil
}

// EndTask says that a task is finished, its wait included.
type EndTask struct {
	Task TaskID    `json:"task"`
	Day  unit.Date `json:"day"`
}

// Kind names the act.
func (c *EndTask) Kind() string { return "end-task" }

// Say tells what the change does.
func (c *EndTask) Say(b *Build) string { return b.taskName(c.Task) + " finished" }

// Apply moves the task to finished.
func (c *EndTask) Apply(b *Build) error {
	t := b.Task(c.Task)
	switch {
	case t == nil:
		return missing("task", c.Task)
	case t.State == Finished:
		return rule(ruleOrder, "the task is finished already").At("task " + string(c.Task))
	case c.Day == 0 || c.Day < t.Began:
		return rule(ruleDates, "the day lies before the day it was begun").At("task " + string(c.Task) + ", day")
	}
	if t.Began == 0 {
		t.Began = c.Day
	}
	t.State, t.Ended, t.Left, t.LeftSaid = Finished, c.Day, nil, false
	if t.Stage == "loom" {
		t.Circuits = len(b.Circuits)
	}
	return nil
}

// SayLeft says how many hours a task still needs, as the person doing it
// judges; it overrules what the plan would reckon.
type SayLeft struct {
	Task TaskID `json:"task"`
	Left []Leg  `json:"left"`
}

// Kind names the act.
func (c *SayLeft) Kind() string { return "say-left" }

// Say tells what the change does.
func (c *SayLeft) Say(b *Build) string {
	return fmt.Sprintf("%s: %s left", b.taskName(c.Task), Total(c.Left))
}

// Apply sets the hours left.
func (c *SayLeft) Apply(b *Build) error {
	t := b.Task(c.Task)
	if t == nil {
		return missing("task", c.Task)
	}
	if err := b.checkLegs(c.Left, "task "+string(c.Task)+", left"); err != nil {
		return err
	}
	t.Left, t.LeftSaid = c.Left, true
	return nil
}

// HoldTask keeps a task from beginning before a day; no day lets it go.
type HoldTask struct {
	Task TaskID    `json:"task"`
	Day  unit.Date `json:"not_before,omitzero"`
}

// Kind names the act.
func (c *HoldTask) Kind() string { return "hold-task" }

// Say tells what the change does.
func (c *HoldTask) Say(b *Build) string {
	if c.Day == 0 {
		return b.taskName(c.Task) + " may begin when it can"
	}
	return fmt.Sprintf("%s not before %s", b.taskName(c.Task), c.Day.Short())
}

// Apply sets the day.
func (c *HoldTask) Apply(b *Build) error {
	t := b.Task(c.Task)
	if t == nil {
		return missing("task", c.Task)
	}
	t.NoEarly = c.Day
	return nil
}

// MoveWork gives hours of tasks from one trade to another.
type MoveWork struct {
	Moves []Move `json:"moves"`
}

// Kind names the act.
func (c *MoveWork) Kind() string { return "move-work" }

// Say tells what the change does.
func (c *MoveWork) Say(*Build) string {
	var sum unit.Effort
	for _, m := range c.Moves {
		sum += m.Hours
	}
	if len(c.Moves) == 0 {
		return "No hours moved"
	}
	return fmt.Sprintf("%s takes %s from %s", c.Moves[0].To, sum, c.Moves[0].From)
}

// Apply keeps the moves.
func (c *MoveWork) Apply(b *Build) error {
	if err := b.checkMoves(c.Moves); err != nil {
		return err
	}
	b.Moves = append(b.Moves, c.Moves...)
	return nil
}

func (b *Build) checkMoves(moves []Move) error {
	for i, m := range moves {
		where := fmt.Sprintf("move %d", i+1)
		switch {
		case b.Task(m.Task) == nil:
			return at(missing("task", m.Task), where)
		case b.Trade(m.From) == nil:
			return at(missing("trade", m.From), where)
		case b.Trade(m.To) == nil:
			return at(missing("trade", m.To), where)
		case !b.somebodyDoes(m.To):
			return rule(ruleHours, "nobody does the trade %s", m.To).At(where)
		}
		if err := inRange(m.Hours, 1, mostEffort, "hours", where+", hours_h"); err != nil {
			return err
		}
	}
	return nil
}

// SubletWork sends hours of a task to an outside shop.
type SubletWork struct {
	Sublet Sublet `json:"sublet"`
}

// Kind names the act.
func (c *SubletWork) Kind() string { return "sublet-work" }

// Say tells what the change does.
func (c *SubletWork) Say(b *Build) string {
	return fmt.Sprintf("%s of %s sublet for %s", Total(c.Sublet.Legs), c.Sublet.What, b.Currency.Format(c.Sublet.Price))
}

// Apply keeps the sublet.
func (c *SubletWork) Apply(b *Build) error {
	if err := b.checkSublet(c.Sublet, "sublet"); err != nil {
		return err
	}
	b.Sublets = append(b.Sublets, c.Sublet)
	return nil
}

func (b *Build) checkSublet(s Sublet, what string) error {
	where := what + " of task " + string(s.Task)
	if b.Task(s.Task) == nil {
		return at(missing("task", s.Task), where)
	}
	return first(b.checkLegs(s.Legs, where), needText(s.What, where+", what"),
		inRange(s.Price, 0, mostMoney, "price", where+", price"),
		inRange(s.Days, 0, mostDays, "days", where+", days"))
}

func (b *Build) taskName(id TaskID) string {
	if t := b.Task(id); t != nil {
		return string(id) + " " + t.Name
	}
	return string(id)
}
