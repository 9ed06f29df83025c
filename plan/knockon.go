package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/takeoff"
	"fettle/unit"
)

// KnockOn is what a change does: two plans compared, only what differs, the
// largest first.
type KnockOn struct {
	Rows    []Row           `json:"rows"`
	Before  Headline        `json:"before"`
	After   Headline        `json:"after"`
	Order   []Order         `json:"order_today"` // parts to order now that were not before
	Decide  []takeoff.Check `json:"decide"`      // checks that were not there before
	Settled []takeoff.Check `json:"settled"`     // checks that are gone
}

// Headline is the few numbers by which a plan is known.
type Headline struct {
	P50      unit.Date   `json:"p50"`
	P80      unit.Date   `json:"p80"`
	Ready    float64     `json:"ready"`
	StdErr   float64     `json:"std_error"`
	Word     string      `json:"word"`
	Metal    unit.Effort `json:"findings_h"` // planned hours of all findings
	Cash     unit.Money  `json:"cash"`
	Over     unit.Money  `json:"over"`
	Expected unit.Money  `json:"net"`
}

// Row is one thing that differs between two plans.
type Row struct {
	Group  string  `json:"group"` // date, hours, money, outwork, paint or parts
	Name   string  `json:"name"`
	Before string  `json:"before"`
	After  string  `json:"after"`
	Change string  `json:"change"`
	Worse  bool    `json:"worse"`
	weight float64 // how much it matters; a day of the date is 1
}

// headline picks the few numbers out of a plan.
func (p *Plan) headline() Headline {
	h := Headline{P50: p.Dates.P50, P80: p.Dates.P80, Ready: p.Odds.Ready, StdErr: p.Odds.StdErr, Word: p.Odds.Word,
		Cash: p.Money.Cash, Over: p.Money.Over, Expected: p.Money.Net.Expected}
	for _, s := range p.Stages {
		h.Metal += s.Findings
	}
	return h
}

// Compare returns what differs from one plan to the other. Both must be made
// at the same moment with the same options.
func Compare(b *build.Build, before, after *Plan) KnockOn {
	k := KnockOn{Before: before.headline(), After: after.headline()}
	c := comparison{money: b.Currency.Format}
	c.dates(before, after)
	c.hours(before, after)
	c.cash(before, after)
	c.loads(before, after)
	c.paint(before, after)
	c.parts(before, after)
	slices.SortStableFunc(c.rows, func(a, b Row) int { return cmp.Compare(b.weight, a.weight) })
	k.Rows = c.rows
	for _, o := range after.Orders {
		if slices.Contains(after.Today, o.Part) && !slices.Contains(before.Today, o.Part) {
			k.Order = append(k.Order, o)
		}
	}
	k.Decide, k.Settled = newChecks(before.Checks, after.Checks), newChecks(after.Checks, before.Checks)
	return k
}

func newChecks(old, now []takeoff.Check) []takeoff.Check {
	var list []takeoff.Check
	for _, c := range now {
		if !slices.ContainsFunc(old, func(o takeoff.Check) bool { return o.ID == c.ID }) {
			list = append(list, c)
		}
	}
	return list
}

// comparison gathers rows.
type comparison struct {
	rows  []Row
	money func(unit.Money) string
}

func (c *comparison) add(weight float64, worse bool, r Row) {
	if r.Before != r.After {
		r.weight, r.Worse = math.Abs(weight), worse
		c.rows = append(c.rows, r)
	}
}

func (c *comparison) dates(before, after *Plan) {
	day := func(name string, x, y unit.Date, weight float64) {
		days := int(y - x)
		c.add(weight*float64(days), days > 0, Row{Group: "date", Name: name, Before: x.Long(), After: y.Long(), Change: signed(days, "day")})
	}
	day("half the builds are finished by", before.Dates.P50, after.Dates.P50, 2)
	day("four in five by", before.Dates.P80, after.Dates.P80, 1.9)
	day("nine in ten by", before.Dates.P90, after.Dates.P90, 1)
	day("if nothing runs over", before.Dates.Plain, after.Dates.Plain, 0.9)
	points := 100 * (after.Odds.Ready - before.Odds.Ready)
	c.add(points*0.9, points < 0, Row{Group: "date", Name: "odds of " + before.Promise.Ready.Long(),
		Before: percent(before.Odds), After: percent(after.Odds), Change: signed(int(math.Round(points)), "point")})
}

func (c *comparison) hours(before, after *Plan) {
	for i, s := range after.Stages {
		old := before.Stages[i]
		d := s.Findings - old.Findings
		c.add(d.H()/8, d > 0, Row{Group: "hours", Name: "findings in " + s.Stage, Before: old.Findings.String(), After: s.Findings.String(), Change: signedHours(d)})
	}
	for _, p := range after.People {
		var old unit.Effort // none of a person who is new
		if i := slices.IndexFunc(before.People, func(o Person) bool { return o.ID == p.ID }); i >= 0 {
			old = before.People[i].Total
		}
		d := p.Total - old
		c.add(d.H()/10, d > 0, Row{Group: "hours", Name: p.Name, Before: old.String(), After: p.Total.String(), Change: signedHours(d)})
	}
}

func (c *comparison) cash(before, after *Plan) {
	amount := func(name string, x, y unit.Money, more bool, weight float64) {
		c.add(weight*float64(y-x)/50_000, (y > x) == more, Row{Group: "money", Name: name, Before: c.money(x), After: c.money(y), Change: c.signedMoney(y - x)})
	}
	x, y := before.Money, after.Money
	amount("cash", x.Cash, y.Cash, true, 1)
	amount("over the budget", x.Over, y.Over, true, 0.95)
	amount("reaches the cause", x.Net.Expected, y.Net.Expected, false, 0.9)
	amount("gifts in kind", x.InKind, y.InKind, false, 0.2)
	for i, l := range y.Lines {
		var old unit.Money
		if i < len(x.Lines) { // lines keep their order; other payments come last
			old = x.Lines[i].Amount
		}
		amount(l.Name, old, l.Amount, true, 0.5)
	}
}

func (c *comparison) loads(before, after *Plan) {
	for _, l := range after.Loads {
		for _, old := range before.Loads {
			if old.ID != l.ID {
				continue
			}
			name := "float of " + string(l.ID) + " " + l.What
			d := l.Float - old.Float
			c.add(float64(d)/5, d < 0, Row{Group: "outwork", Name: name, Before: fmt.Sprintf("%d days", old.Float), After: fmt.Sprintf("%d days", l.Float), Change: signed(d, "day")})
		}
	}
}

func percent(o Odds) string { return fmt.Sprintf("%.0f %%", 100*o.Ready) }

// signed says how many more or fewer of a thing there are.
func signed(n int, one string) string {
	sign := "+"
	if n < 0 {
		sign, n = "−", -n
	}
	if n != 1 {
		one += "s"
	}
	return fmt.Sprintf("%s%d %s", sign, n, one)
}

func signedHours(e unit.Effort) string {
	if e < 0 {
		return "−" + (-e).String()
	}
	return "+" + e.String()
}

func (c *comparison) signedMoney(m unit.Money) string {
	if m < 0 {
		return c.money(m)
	}
	return "+" + c.money(m)
}
