package build

import (
	"fmt"

	"fettle/unit"
)

// RecordGift notes money given, promised or received. The same ID replaces
// what was promised by what came.
type RecordGift struct {
	Gift Gift `json:"gift"`
}

// Kind names the act.
func (c *RecordGift) Kind() string { return "record-gift" }

// Say tells what the change does.
func (c *RecordGift) Say(b *Build) string {
	return fmt.Sprintf("%s from %s", b.Currency.Format(c.Gift.Amount), c.Gift.From)
}

// Apply adds or replaces the gift.
func (c *RecordGift) Apply(b *Build) error {
	where := "gift " + c.Gift.ID
	if c.Gift.ID == "" {
		return rule(ruleID, "the ID is missing").At(where)
	}
	if err := first(needText(c.Gift.From, where+", from"),
		inRange(c.Gift.Amount, 1, mostMoney, "amount", where+", amount")); err != nil {
		return err
	}
	if old := find(b.Gifts, c.Gift.ID, func(g *Gift) string { return g.ID }); old != nil {
		*old = c.Gift
		return nil
	}
	b.Gifts = append(b.Gifts, c.Gift)
	return nil
}

// RecordGiftInKind notes something given that is not money.
type RecordGiftInKind struct {
	Gift GivenKind `json:"gift"`
}

// Kind names the act.
func (c *RecordGiftInKind) Kind() string { return "record-gift-in-kind" }

// Say tells what the change does.
func (c *RecordGiftInKind) Say(b *Build) string {
	return fmt.Sprintf("Given: %s, worth %s", c.Gift.What, b.Currency.Format(c.Gift.Value))
}

// Apply adds or replaces the gift.
func (c *RecordGiftInKind) Apply(b *Build) error {
	where := "gift in kind " + c.Gift.ID
	if c.Gift.ID == "" {
		return rule(ruleID, "the ID is missing").At(where)
	}
	if err := first(needText(c.Gift.What, where+", what"), needText(c.Gift.Basis, where+", basis"),
		inRange(c.Gift.Value, 0, mostMoney, "value", where+", value")); err != nil {
		return err
	}
	if old := find(b.Kind, c.Gift.ID, func(g *GivenKind) string { return g.ID }); old != nil {
		*old = c.Gift
		return nil
	}
	b.Kind = append(b.Kind, c.Gift)
	return nil
}

// Pay notes money that left the tin.
type Pay struct {
	Payment Payment `json:"payment"`
}

// Kind names the act.
func (c *Pay) Kind() string { return "pay" }

// Say tells what the change does.
func (c *Pay) Say(b *Build) string {
	return fmt.Sprintf("%s paid for %s", b.Currency.Format(c.Payment.Amount), c.Payment.What)
}

// Apply adds the payment.
func (c *Pay) Apply(b *Build) error {
	p := c.Payment
	if p.ID == "" || find(b.Spent, p.ID, func(o *Payment) string { return o.ID }) != nil {
		return rule(ruleID, "the ID is missing or taken").At("payment " + p.ID)
	}
	if err := b.checkPayment(p); err != nil {
		return err
	}
	b.Spent = append(b.Spent, p)
	return nil
}

func (b *Build) checkPayment(p Payment) error {
	where := "payment " + p.ID
	switch {
	case p.Day == 0:
		return rule(ruleDates, "the day is missing").At(where + ", day")
	case p.For == "parts" && b.Part(PartID(p.Ref)) == nil:
		return at(missing("part", p.Ref), where+", ref")
	case p.For == "outwork" && b.Load(OutworkID(p.Ref)) == nil:
		return at(missing("load", p.Ref), where+", ref")
	case p.For == "line" && find(b.Costs, p.Ref, func(l *CostLine) string { return l.ID }) == nil:
		return at(missing("cost line", p.Ref), where+", ref")
	}
	return first(oneOf(p.For, []string{"parts", "outwork", "line", "other"}, where+", for"),
		needText(p.What, where+", what"),
		inRange(p.Amount, -mostMoney, mostMoney, "amount", where+", amount"))
}

// AgreeBudget notes a budget signed with whoever answers for the money.
type AgreeBudget struct {
	Budget Budget `json:"budget"`
}

// Kind names the act.
func (c *AgreeBudget) Kind() string { return "agree-budget" }

// Say tells what the change does.
func (c *AgreeBudget) Say(b *Build) string {
	return "Budget agreed: " + b.Currency.Format(c.Budget.Agreed)
}

// Apply sets the budget.
func (c *AgreeBudget) Apply(b *Build) error {
	if err := checkBudget(c.Budget); err != nil {
		return err
	}
	b.Budget = c.Budget
	return nil
}

func checkBudget(g Budget) error {
	return first(inRange(g.Agreed, 0, mostMoney, "amount", "budget, agreed"),
		inRange(g.Contingency, 0, max(g.Agreed, 0), "contingency", "budget, contingency"))
}

// SetSale says what the vehicle is expected to bring, or what it brought.
type SetSale struct {
	Sale Sale `json:"sale"`
}

// Kind names the act.
func (c *SetSale) Kind() string { return "set-sale" }

// Say tells what the change does.
func (c *SetSale) Say(b *Build) string {
	if c.Sale.Sold > 0 {
		return "Sold for " + b.Currency.Format(c.Sale.Sold)
	}
	return "Sale expected at " + b.Currency.Format(c.Sale.Expected)
}

// Apply sets the sale.
func (c *SetSale) Apply(b *Build) error {
	if err := checkSale(c.Sale); err != nil {
		return err
	}
	b.Sale = c.Sale
	return nil
}

func checkSale(s Sale) error {
	if s.Low < 0 || s.Expected < s.Low || s.High < s.Expected || s.High > mostMoney {
		return rule(ruleRange, "low, expected and high must rise from zero").At("sale")
	}
	if s.FeePercent < 0 || s.FeePercent > 10_000 {
		return rule(ruleRange, "the fee is not between 0 and 100 %%").At("sale, fee_hundredths_percent")
	}
	if s.Closes != 0 && s.Closes < s.Opens {
		return rule(ruleDates, "it closes before it opens").At("sale, closes")
	}
	return inRange(s.Sold, unit.Money(0), mostMoney, "amount", "sale, sold")
}
