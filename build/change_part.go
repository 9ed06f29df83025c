package build

import (
	"fmt"
	"slices"

	"fettle/unit"
)

// AddPart puts a part on the list of things to get.
type AddPart struct {
	Part Part `json:"part"`
}

// Kind names the act.
func (c *AddPart) Kind() string { return "add-part" }

// Say tells what the change does.
func (c *AddPart) Say(*Build) string { return fmt.Sprintf("%s wanted: %s", c.Part.ID, c.Part.Name) }

// Apply adds the part.
func (c *AddPart) Apply(b *Build) error {
	if err := b.checkNewParts([]Part{c.Part}, ""); err != nil {
		return err
	}
	b.addParts([]Part{c.Part}, Finding{})
	return nil
}

// checkNewParts applies the rules to parts that are about to be added. A part
// may leave its task to the finding that needs it.
func (b *Build) checkNewParts(parts []Part, where string) error {
	for i, p := range parts {
		place := "part " + string(p.ID)
		if where != "" {
			place = where + ", " + place
		}
		taken := slices.ContainsFunc(parts[:i], func(o Part) bool { return o.ID == p.ID })
		if p.ID == "" || taken || b.Part(p.ID) != nil {
			return rule(ruleID, "the number is missing or taken").At(place)
		}
		if p.Task == "" && where == "" || p.Task != "" && b.Task(p.Task) == nil {
			return at(missing("task", p.Task), place+", needed_for")
		}
		if p.State == "" {
			p.State = Wanted
		}
		if err := checkPart(p, place); err != nil {
			return err
		}
	}
	return nil
}

func checkPart(p Part, place string) error {
	return first(
		oneOf(p.State, orderStates(), place+", state"),
		needText(p.Name, place+", name"),
		inRange(p.Quantity, 1, mostCount, "quantity", place+", quantity"),
		inRange(p.Price, 0, mostMoney, "price", place+", unit_price"),
		inRange(p.Lead, 0, mostDays, "lead", place+", lead_days"),
	)
}

// addParts adds parts that a finding made necessary.
func (b *Build) addParts(parts []Part, f Finding) {
	for _, p := range parts {
		if p.Task == "" {
			p.Task = f.Task
		}
		if f.ID != "" && !slices.Contains(p.Because, f.ID) {
			p.Because = append(slices.Clip(p.Because), f.ID)
		}
		if p.State == "" {
			p.State = Wanted
		}
		b.Parts = append(b.Parts, p)
	}
}

// OrderPart says that parts were ordered.
type OrderPart struct {
	Parts    []PartID  `json:"parts"`
	Day      unit.Date `json:"day"`
	Promised unit.Date `json:"promised,omitzero"`
	Supplier string    `json:"supplier,omitempty"`
}

// Kind names the act.
func (c *OrderPart) Kind() string { return "order-part" }

// Say tells what the change does.
func (c *OrderPart) Say(b *Build) string { return b.partNames(c.Parts) + " ordered" }

// Apply moves wanted parts to ordered.
func (c *OrderPart) Apply(b *Build) error {
	for _, id := range c.Parts {
		p := b.Part(id)
		switch {
		case p == nil:
			return missing("part", id)
		case p.State != Wanted && p.State != SentBack && p.State != Wrong:
			return rule(ruleOrder, "it is %s already", p.State).At("part " + string(id))
		case c.Day == 0 || c.Promised != 0 && c.Promised < c.Day:
			return rule(ruleDates, "the order day and the promised day must follow one another").At("part " + string(id))
		}
	}
	for _, id := range c.Parts {
		p := b.Part(id)
		p.State, p.Ordered, p.Promised = Ordered, c.Day, c.Promised
		if c.Promised != 0 {
			p.State = Promised
		}
		if c.Supplier != "" {
			p.Supplier = c.Supplier
		}
	}
	return nil
}

// PromisePart says when an ordered part is expected, or that it will be late.
type PromisePart struct {
	Part     PartID    `json:"part"`
	Promised unit.Date `json:"promised"`
	Late     bool      `json:"late,omitempty"`
}

// Kind names the act.
func (c *PromisePart) Kind() string { return "promise-part" }

// Say tells what the change does.
func (c *PromisePart) Say(*Build) string {
	return fmt.Sprintf("%s promised for %s", c.Part, c.Promised.Short())
}

// Apply sets the promised day.
func (c *PromisePart) Apply(b *Build) error {
	p := b.Part(c.Part)
	where := "part " + string(c.Part)
	switch {
	case p == nil:
		return missing("part", c.Part)
	case p.State != Ordered && p.State != Promised && p.State != Late:
		return rule(ruleOrder, "it is %s, not on order", p.State).At(where)
	case c.Promised == 0 || c.Promised < p.Ordered:
		return rule(ruleDates, "the promised day is missing or lies before the order").At(where + ", promised")
	}
	p.Promised, p.State = c.Promised, Promised
	if c.Late {
		p.State = Late
	}
	return nil
}

// ReceivePart says that a part came in, right or wrong.
type ReceivePart struct {
	Parts []PartID  `json:"parts"`
	Day   unit.Date `json:"day"`
	Wrong string    `json:"wrong,omitempty"` // what is wrong with it
}

// Kind names the act.
func (c *ReceivePart) Kind() string { return "receive-part" }

// Say tells what the change does.
func (c *ReceivePart) Say(b *Build) string {
	if c.Wrong != "" {
		return b.partNames(c.Parts) + " came in wrong: " + c.Wrong
	}
	return b.partNames(c.Parts) + " came in"
}

// Apply moves the parts to in, or to wrong.
func (c *ReceivePart) Apply(b *Build) error {
	for _, id := range c.Parts {
		p := b.Part(id)
		switch {
		case p == nil:
			return missing("part", id)
		case p.State == In || p.State == Given:
			return rule(ruleOrder, "it is in already").At("part " + string(id))
		case c.Day == 0 || c.Day < p.Ordered:
			return rule(ruleDates, "the day lies before the order").At("part " + string(id) + ", day")
		}
	}
	for _, id := range c.Parts {
		p := b.Part(id)
		p.Arrived, p.Received, p.State = c.Day, p.Quantity, In
		switch {
		case c.Wrong != "":
			p.State, p.Received = Wrong, 0
		case p.Donated:
			p.State = Given
		}
	}
	return nil
}

// CancelPart takes a part off the list that is not needed after all.
type CancelPart struct {
	Part PartID `json:"part"`
	Why  string `json:"why"`
}

// Kind names the act.
func (c *CancelPart) Kind() string { return "cancel-part" }

// Say tells what the change does.
func (c *CancelPart) Say(*Build) string { return fmt.Sprintf("%s not wanted: %s", c.Part, c.Why) }

// Apply removes a part that is still only wanted. What the loom covers with it,
// and a missing piece that it was wanted for, have no part then; what else names
// it stays, and is told.
func (c *CancelPart) Apply(b *Build) error {
	p := b.Part(c.Part)
	where := "part " + string(c.Part)
	paid := func(s Payment) bool { return s.For == "parts" && s.Ref == string(c.Part) }
	switch {
	case p == nil:
		return missing("part", c.Part)
	case p.State != Wanted:
		return rule(ruleOrder, "it is %s; send it back instead", p.State).At(where)
	case slices.ContainsFunc(b.Spent, paid):
		return rule(ruleOrder, "money was paid for it already").At(where)
	}
	if err := needText(c.Why, where+", why"); err != nil {
		return err
	}
	next := *b
	next.Parts = slices.DeleteFunc(slices.Clone(b.Parts), func(o Part) bool { return o.ID == c.Part })
	next.Loom.Supplies = slices.DeleteFunc(slices.Clone(b.Loom.Supplies), func(s LoomSupply) bool { return s.Part == c.Part })
	next.Missing = slices.Clone(b.Missing)
	for i := range next.Missing {
		if next.Missing[i].Part == c.Part {
			next.Missing[i].Part = ""
		}
	}
	if err := next.Validate(); err != nil {
		return at(err, where+" is still named")
	}
	*b = next
	return nil
}

// WantPart says how many of a part are wanted, while it is not ordered.
type WantPart struct {
	Part     PartID `json:"part"`
	Quantity int    `json:"quantity"`
}

// Kind names the act.
func (c *WantPart) Kind() string { return "want-part" }

// Say tells what the change does.
func (c *WantPart) Say(b *Build) string {
	text := fmt.Sprintf("%s: %d wanted", c.Part, c.Quantity)
	if p := b.Part(c.Part); p != nil {
		text += fmt.Sprintf(" of %s, was %d", p.Name, p.Quantity)
	}
	return text
}

// Apply sets the quantity of a part that is still only wanted.
func (c *WantPart) Apply(b *Build) error {
	p := b.Part(c.Part)
	where := "part " + string(c.Part)
	switch {
	case p == nil:
		return missing("part", c.Part)
	case p.State != Wanted:
		return rule(ruleOrder, "it is %s: order more as another part, or send some back", p.State).At(where)
	}
	next := *p
	next.Quantity = c.Quantity
	if err := checkPart(next, where); err != nil {
		return err
	}
	*p = next
	return nil
}

func (b *Build) partNames(ids []PartID) string {
	if len(ids) == 1 {
		if p := b.Part(ids[0]); p != nil {
			return string(p.ID) + " " + p.Name
		}
	}
	return fmt.Sprintf("%d parts", len(ids))
}
