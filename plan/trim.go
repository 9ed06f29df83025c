package plan

import (
	"context"
	"slices"

	"fettle/build"
)

// trim takes out of a trial what does not make it better: Saturdays from the
// last to the first, then tasks whose place in the list does not matter. The
// rest move no further than they need.
func (h *hunt) trim(ctx context.Context, t trial) (trial, error) {
	bought := t.result.Bought
	for i := len(bought) - 1; i >= 0; i-- {
		fewer, err := h.try(ctx, t.order, slices.Delete(slices.Clone(bought), i, i+1))
		if err != nil {
			return t, err
		}
		if h.days(fewer, t) <= 0 {
			t, bought = fewer, slices.Delete(slices.Clone(bought), i, i+1)
		}
	}
	for again := true; again; {
		again = false
		moved := h.moved(t.order)
		for _, m := range moved {
			back, err := h.try(ctx, h.putBack(t.order, m.Task, moved), bought)
			if err != nil {
				return t, err
			}
			if h.days(back, t) <= 0 && len(h.moved(back.order)) < len(moved) {
				t, again = back, true
				break
			}
		}
	}
	return h.nearest(ctx, t)
}

// nearest brings each moved task as near to its old place as it may stand.
func (h *hunt) nearest(ctx context.Context, t trial) (trial, error) {
	moved := h.moved(t.order)
	for _, m := range moved {
		home := slices.Index(h.putBack(t.order, m.Task, moved), m.Task)
		at := slices.Index(t.order, m.Task)
		step := 1
		if at < home {
			step = -1
		}
		for i := home + step; i != at; i += step {
			near, err := h.try(ctx, slices.Insert(without(t.order, m.Task), i, m.Task), t.result.Bought)
			if err != nil {
				return t, err
			}
			if h.days(near, t) <= 0 {
				t = near
				break
			}
		}
	}
	return t, nil
}

// moved are the tasks that change their place, for good or ill.
func (h *hunt) moved(order []build.TaskID) []build.ListMove {
	return h.arranged(order).Moved(h.build)
}

// arranged is the change that puts the open tasks into an order: it names those
// that come to another place.
func (h *hunt) arranged(order []build.TaskID) *build.ArrangeTasks {
	c := &build.ArrangeTasks{}
	for i, id := range order {
		if h.present[i] != id {
			c.Tasks = append(c.Tasks, id)
		}
	}
	return c
}

// putBack puts a task where it stands in the present list: behind the nearest
// task that stands before it there and has not moved.
func (h *hunt) putBack(order []build.TaskID, id build.TaskID, moved []build.ListMove) []build.TaskID {
	list := without(order, id)
	at := 0
	for _, other := range h.present[:slices.Index(h.present, id)] {
		if !slices.ContainsFunc(moved, func(m build.ListMove) bool { return m.Task == other }) {
			at = slices.Index(list, other) + 1
		}
	}
	return slices.Insert(list, at, id)
}
