package build

import (
	"fmt"
	"slices"
)

// RedoPaint says that paint goes on again, and what it takes.
type RedoPaint struct {
	Redo Redo `json:"redo"`
}

// Kind names the act.
func (c *RedoPaint) Kind() string { return "redo-paint" }

// Say tells what the change does.
func (c *RedoPaint) Say(b *Build) string {
	return fmt.Sprintf("%s painted again, %s: %s", b.surfaceName(c.Redo.Panels, c.Redo.Zones), Total(c.Redo.Work), c.Redo.Why)
}

// Apply adds the work to its task, which must not be finished. Where somebody
// has said how many hours it still needs, those grow.
func (c *RedoPaint) Apply(b *Build) error {
	r := c.Redo
	where := "redo " + string(r.ID)
	if r.ID == "" || find(b.Redos, r.ID, func(o *Redo) RedoID { return o.ID }) != nil {
		return rule(ruleID, "the number is missing or taken").At(where)
	}
	if err := b.checkRedo(r); err != nil {
		return err
	}
	t := b.Task(r.Task)
	if t.State == Finished {
		return rule(ruleOrder, "%s is finished; name a task that is not", t.ID).At(where + ", task")
	}
	if t.LeftSaid {
		left := slices.Clone(t.Left)
		for _, l := range r.Work {
			if i := slices.IndexFunc(left, func(o Leg) bool { return o.Trade == l.Trade }); i >= 0 {
				left[i].Hours += l.Hours
			} else {
				left = append(left, l)
			}
		}
		if err := b.checkLegs(left, where+", work"); err != nil {
			return err
		}
		t.Left = left
	}
	b.Redos = append(b.Redos, r)
	return nil
}
