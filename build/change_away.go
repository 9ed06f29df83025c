package build

import (
	"fmt"

	"fettle/unit"
)

// SendAway says that a load has left for its outside shop.
type SendAway struct {
	Load   OutworkID `json:"load"`
	Day    unit.Date `json:"day"`
	Pieces int       `json:"pieces"`
}

// Kind names the act.
func (c *SendAway) Kind() string { return "send-away" }

// Say tells what the change does.
func (c *SendAway) Say(b *Build) string {
	return fmt.Sprintf("%s sent: %d pieces", b.loadName(c.Load), c.Pieces)
}

// Apply moves the load to away and begins its task.
func (c *SendAway) Apply(b *Build) error {
	o := b.Load(c.Load)
	where := "load " + string(c.Load)
	switch {
	case o == nil:
		return missing("load", c.Load)
	case o.State != ToPack && o.State != Packed:
		return rule(ruleOrder, "it is %s already", o.State).At(where)
	case c.Day == 0:
		return rule(ruleDates, "the day is missing").At(where + ", day")
	}
	if err := inRange(c.Pieces, 1, mostCount, "pieces", where+", pieces"); err != nil {
		return err
	}
	o.State, o.Sent, o.Pieces = Away, c.Day, c.Pieces
	if t := b.Task(o.Task); t != nil && t.State == NotBegun {
		t.State, t.Began = Begun, c.Day
	}
	return nil
}

// ChaseAway notes what the outside shop now says: working days from sending.
type ChaseAway struct {
	Load   OutworkID `json:"load"`
	Likely int       `json:"likely_days"`
	Said   string    `json:"said,omitempty"`
}

// Kind names the act.
func (c *ChaseAway) Kind() string { return "chase-away" }

// Say tells what the change does.
func (c *ChaseAway) Say(b *Build) string {
	return fmt.Sprintf("%s now likely %d working days", b.loadName(c.Load), c.Likely)
}

// Apply sets the likely turn-round.
func (c *ChaseAway) Apply(b *Build) error {
	o := b.Load(c.Load)
	where := "load " + string(c.Load)
	if o == nil {
		return missing("load", c.Load)
	}
	if o.State != Away && o.State != Chased {
		return rule(ruleOrder, "it is %s, not away", o.State).At(where)
	}
	if err := inRange(c.Likely, 1, mostDays, "days", where+", likely_days"); err != nil {
		return err
	}
	o.State, o.Likely = Chased, c.Likely
	return nil
}

// ReceiveAway says that a load came back, how many pieces, and what is short.
type ReceiveAway struct {
	Load    OutworkID `json:"load"`
	Day     unit.Date `json:"day"`
	Counted int       `json:"counted"`
	Short   string    `json:"short,omitempty"`
}

// Kind names the act.
func (c *ReceiveAway) Kind() string { return "receive-away" }

// Say tells what the change does.
func (c *ReceiveAway) Say(b *Build) string {
	text := fmt.Sprintf("%s back: %d pieces", b.loadName(c.Load), c.Counted)
	if c.Short != "" {
		text += "; " + c.Short
	}
	return text
}

// Apply moves the load to back, or to claimed where something is short.
func (c *ReceiveAway) Apply(b *Build) error {
	o := b.Load(c.Load)
	where := "load " + string(c.Load)
	switch {
	case o == nil:
		return missing("load", c.Load)
	case o.State != Away && o.State != Chased:
		return rule(ruleOrder, "it is %s, not away", o.State).At(where)
	case c.Day == 0 || c.Day < o.Sent:
		return rule(ruleDates, "the day is missing or lies before it was sent").At(where + ", day")
	case c.Counted < 0 || c.Counted > o.Pieces:
		return rule(ruleWhole, "%d came back of %d sent", c.Counted, o.Pieces).At(where + ", counted")
	case c.Counted < o.Pieces && c.Short == "":
		return rule(ruleText, "say what is missing").At(where + ", short")
	}
	o.State, o.Returned, o.Counted, o.Short = Back, c.Day, c.Counted, c.Short
	if c.Short != "" {
		o.State = Claimed
	}
	if t := b.Task(o.Task); t != nil && len(t.Legs) == 0 {
		t.State, t.Ended = Finished, c.Day
	}
	return nil
}

func (b *Build) loadName(id OutworkID) string {
	if o := b.Load(id); o != nil {
		return string(id) + " " + o.What
	}
	return string(id)
}

// MoveBags says where bags are.
type MoveBags struct {
	Bags  []BagID  `json:"bags"`
	State BagState `json:"state"`
}

// Kind names the act.
func (c *MoveBags) Kind() string { return "move-bags" }

// Say tells what the change does.
func (c *MoveBags) Say(*Build) string { return fmt.Sprintf("%d bags %s", len(c.Bags), c.State) }

// Apply sets the state of the bags.
func (c *MoveBags) Apply(b *Build) error {
	if err := oneOf(c.State, bagStates(), "state"); err != nil {
		return err
	}
	for _, id := range c.Bags {
		if b.Bag(id) == nil {
			return missing("bag", id)
		}
	}
	for _, id := range c.Bags {
		b.Bag(id).State = c.State
	}
	return nil
}
