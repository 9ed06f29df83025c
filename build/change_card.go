package build

import "fmt"

// RecordCard notes a spray-out card and what was read on it.
type RecordCard struct {
	Card Card `json:"card"`
}

// Kind names the act.
func (c *RecordCard) Kind() string { return "record-card" }

// Say tells what the change does.
func (c *RecordCard) Say(b *Build) string {
	text := "Spray-out of " + b.productName(c.Card.Product)
	if c.Card.Over != "" {
		text += " over " + b.productName(c.Card.Over)
	}
	if n := len(c.Card.Steps); n > 1 {
		text += fmt.Sprintf(", %d steps", n)
	}
	return text
}

// Apply adds the card, or takes the place of the one of its ID, read anew.
func (c *RecordCard) Apply(b *Build) error {
	if c.Card.ID == "" {
		return rule(ruleID, "the number is missing").At("card")
	}
	if err := b.checkCard(c.Card); err != nil {
		return err
	}
	if old := b.Card(c.Card.ID); old != nil {
		*old = c.Card
		return nil
	}
	b.Cards = append(b.Cards, c.Card)
	return nil
}

// ChooseStep says which step of a let-down card is sprayed.
type ChooseStep struct {
	Card CardID `json:"card"`
	Step int    `json:"step"` // from 1
}

// Kind names the act.
func (c *ChooseStep) Kind() string { return "choose-step" }

// Say tells what the change does.
func (c *ChooseStep) Say(b *Build) string {
	text := fmt.Sprintf("Step %d of card %s chosen", c.Step, c.Card)
	if card := b.Card(c.Card); card != nil && c.Step >= 1 && c.Step <= len(card.Steps) {
		text += fmt.Sprintf(": %d coats", card.Steps[c.Step-1].Coats)
	}
	return text
}

// Apply sets the step.
func (c *ChooseStep) Apply(b *Build) error {
	card := b.Card(c.Card)
	if card == nil {
		return missing("card", c.Card)
	}
	if err := inRange(c.Step, 1, len(card.Steps), "the step", "card "+string(c.Card)+", step"); err != nil {
		return err
	}
	card.Chosen = c.Step
	return nil
}
