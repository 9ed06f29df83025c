package build

import (
	"fmt"
	"slices"
	"strings"
)

// ArrangeTasks puts open tasks of the list into a new order: they share out
// among themselves the places they hold, and all others keep theirs. Earlier
// in the list wins a shared person.
type ArrangeTasks struct {
	Tasks []TaskID `json:"tasks"`
}

// Kind names the act.
func (c *ArrangeTasks) Kind() string { return "arrange-tasks" }

// mostSaid is how many moves a line names.
const mostSaid = 3

// Say tells what the change does.
func (c *ArrangeTasks) Say(b *Build) string {
	moved := c.Moved(b)
	if len(moved) == 0 {
		return "The list stays in its order"
	}
	var said []string
	for i, m := range moved {
		if i == mostSaid {
			said = append(said, fmt.Sprintf("%d more moved", len(moved)-i))
			break
		}
		said = append(said, m.say(b))
	}
	return "On the list: " + strings.Join(said, "; ")
}

// Apply puts the tasks into their order.
func (c *ArrangeTasks) Apply(b *Build) error {
	places, err := c.places(b)
	if err != nil {
		return err
	}
	tasks := slices.Clone(b.Tasks)
	for i, id := range c.Tasks {
		tasks[places[i]] = *b.Task(id)
	}
	b.Tasks = tasks
	return nil
}

// places are the places in the list that the tasks hold among them, in order.
func (c *ArrangeTasks) places(b *Build) ([]int, error) {
	if len(c.Tasks) == 0 {
		return nil, rule(ruleText, "no task is named").At("tasks")
	}
	var places []int
	for i, id := range c.Tasks {
		where := fmt.Sprintf("tasks, line %d", i+1)
		t := b.Task(id)
		switch {
		case t == nil:
			return nil, at(missing("task", id), where)
		case t.State == Finished:
			return nil, rule(ruleOrder, "task %s is finished: its place no longer counts", id).At(where)
		case slices.Contains(c.Tasks[:i], id):
			return nil, rule(ruleID, "task %s is named twice", id).At(where)
		}
		places = append(places, b.placeOf(id))
	}
	slices.Sort(places)
	return places, nil
}

func (b *Build) placeOf(id TaskID) int {
	return slices.IndexFunc(b.Tasks, func(t Task) bool { return t.ID == id })
}

// ListMove is a task that an order lifts or drops in the list.
type ListMove struct {
	Task    TaskID `json:"task"`
	Earlier bool   `json:"earlier"`
	Next    TaskID `json:"next,omitempty"` // it now stands right before this one; empty is the end of the list
}

func (m ListMove) say(b *Build) string {
	if m.Next == "" {
		return b.taskName(m.Task) + " last"
	}
	return b.taskName(m.Task) + " before " + b.taskName(m.Next)
}

// Moved returns the open tasks that really move, in their new order: the fewest
// whose taking out and putting back make the new order of the whole list. A
// change that does not apply moves nothing.
func (c *ArrangeTasks) Moved(b *Build) []ListMove {
	after := b.Clone()
	if c.Apply(&after) != nil {
		return nil
	}
	var open []TaskID
	var old []int
	for _, t := range after.Tasks {
		if t.State != Finished {
			open, old = append(open, t.ID), append(old, b.placeOf(t.ID))
		}
	}
	stay := longestRise(old)
	var moved []ListMove
	for i, id := range open {
		if stay[i] {
			continue
		}
		m := ListMove{Task: id, Earlier: after.placeOf(id) < old[i]}
		if i+1 < len(open) {
			m.Next = open[i+1]
		}
		moved = append(moved, m)
	}
	return moved
}

// longestRise marks one longest rising run of picks out of a list of numbers
// that are all different: what can stay where it is.
func longestRise(list []int) []bool {
	length, from := make([]int, len(list)), make([]int, len(list))
	last := -1
	for i, x := range list {
		length[i], from[i] = 1, -1
		for j, y := range list[:i] {
			if y < x && length[j]+1 >= length[i] {
				length[i], from[i] = length[j]+1, j
			}
		}
		if last < 0 || length[i] > length[last] {
			last = i
		}
	}
	stay := make([]bool, len(list))
	for i := last; i >= 0; i = from[i] {
		stay[i] = true
	}
	return stay
}
