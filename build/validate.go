package build

import (
	"fmt"
	"regexp"
	"time"

	"fettle/unit"
)

var shortName = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,39}$`)

// Validate checks all facts of a build against the numbered rules and returns
// the first fault, with its place.
func (b *Build) Validate() error {
	return first(b.checkHead(), b.checkIDs(), b.checkPeople(), b.checkNetwork(), b.checkBody(),
		b.checkStores(), b.checkInside(), b.checkPaint(), b.checkMoney(), b.checkDone())
}

func (b *Build) checkHead() error {
	if !shortName.MatchString(b.Name) {
		return rule(ruleID, "%q is not a short name of a-z, 0-9 and hyphens", b.Name).At("name")
	}
	return first(checkPromise(b.Promise), needText(b.Title, "title"), needText(b.Vehicle.Name, "vehicle, name"),
		needText(b.Vehicle.Label, "vehicle, label"), needText(b.Currency.Code, "currency, code"),
		inRange(b.Vehicle.Length, 1, mostLength, "length", "vehicle, length_mm"))
}

// checkIDs applies rule 1 to every list.
func (b *Build) checkIDs() error {
	return first(
		unique("trade", b.Trades, func(t Trade) string { return string(t.ID) }),
		unique("person", b.People, func(p Person) string { return string(p.ID) }),
		unique("bay", b.Bays, func(y Bay) string { return y.ID }),
		unique("view", b.Views, func(v View) string { return v.ID }),
		unique("panel", b.Panels, func(p Panel) string { return string(p.ID) }),
		unique("finding", b.Findings, func(f Finding) string { return string(f.ID) }),
		unique("task", b.Tasks, func(t Task) string { return string(t.ID) }),
		unique("bag group", b.Groups, func(g Group) string { return g.ID }),
		unique("bag", b.Bags, func(x Bag) string { return string(x.ID) }),
		unique("part", b.Parts, func(p Part) string { return string(p.ID) }),
		unique("load", b.Outwork, func(o Outwork) string { return string(o.ID) }),
		unique("colour", b.Colours, func(c Colour) string { return string(c.ID) }),
		unique("paint zone", b.Zones, func(z Zone) string { return string(z.ID) }),
		unique("paint product", b.Products, func(p Product) string { return string(p.ID) }),
		b.uniquePaint(),
		b.uniqueWired(),
		unique("trim piece", b.Pieces, func(p Piece) string { return string(p.ID) }),
		unique("roll", b.Rolls, func(r Roll) string { return string(r.ID) }),
		unique("hide", b.Hides, func(h Hide) string { return string(h.ID) }),
		b.uniqueSewn(),
		unique("blank", b.Blanks, func(p Blank) string { return string(p.ID) }),
		unique("sheet", b.Sheets, func(s Sheet) string { return string(s.ID) }),
		unique("sheet plan", b.SheetPlans, func(p SheetPlan) string { return gaugeWords(p.Gauge) }),
		unique("test strip", b.Strips, func(s Strip) string { return string(s.ID) }),
		unique("layout", b.Layouts, func(l Layout) string { return string(l.ID) }),
		unique("motif place", b.Motif.Places, func(m MotifPlace) string { return m.ID }),
		unique("cost line", b.Costs, func(c CostLine) string { return c.ID }),
		unique("gift", b.Gifts, func(g Gift) string { return g.ID }),
		unique("gift in kind", b.Kind, func(g GivenKind) string { return g.ID }),
		unique("payment", b.Spent, func(p Payment) string { return p.ID }),
		unique("hours", b.Hours, func(h Hours) string { return h.ID }),
		unique("snag", b.Snags, func(s Snag) string { return s.ID }),
	)
}

func unique[T any](what string, list []T, id func(T) string) error {
	seen := make(map[string]bool, len(list))
	for i, x := range list {
		key := id(x)
		if key == "" || seen[key] {
			return rule(ruleID, "the ID is missing or taken").At(fmt.Sprintf("%s %d %s", what, i+1, key))
		}
		seen[key] = true
	}
	return nil
}

func (b *Build) checkPeople() error {
	if len(b.People) == 0 {
		return rule(ruleHours, "nobody works on the build").At("people")
	}
	for _, p := range b.People {
		if err := b.checkPerson(p); err != nil {
			return err
		}
	}
	for _, c := range b.Closures {
		if err := checkDays(c.First, c.Last, "closure"); err != nil {
			return err
		}
	}
	for _, a := range b.Absences {
		if b.Person(a.Person) == nil {
			return at(missing("person", a.Person), "absence")
		}
		if err := checkDays(a.First, a.Last, "absence of "+string(a.Person)); err != nil {
			return err
		}
	}
	for _, o := range b.Overtime {
		where := "overtime of " + string(o.Person)
		if b.Person(o.Person) == nil {
			return at(missing("person", o.Person), "overtime")
		}
		if err := checkOvertime(o.Hours, where); err != nil {
			return err
		}
	}
	for _, y := range b.Bays {
		where := "bay " + y.ID
		if err := first(inRange(y.Units, 1, mostCount, "units", where), inRange(y.Clearance, 0, mostMinutes, "clearance", where)); err != nil {
			return err
		}
	}
	return nil
}

func (b *Build) checkPerson(p Person) error {
	where := "person " + string(p.ID)
	for _, t := range p.Trades {
		if b.Trade(t) == nil {
			return at(missing("trade", t), where+", trades")
		}
	}
	for i, h := range p.Week {
		if h < 0 || h > 24*unit.Hour {
			return rule(ruleHours, "day %d has %s", i+1, h).At(where + ", week_h")
		}
	}
	if p.PerWeek() == 0 && !p.Helps {
		return rule(ruleHours, "has no hours in the week").At(where + ", week_h")
	}
	if _, err := ParseClock(p.Starts); err != nil {
		return at(err, where+", starts")
	}
	return first(needText(p.Name, where+", name"),
		inRange(p.Rate, 0, mostMoney, "rate", where+", rate"),
		inRange(p.Given, 0, mostEffort, "hours", where+", given_h"),
		inRange(p.Saturday, 0, 24*unit.Hour, "hours", where+", saturday_h"),
		inRange(p.Premium, 0, 1000, "premium", where+", premium_percent"))
}

// ParseClock reads "08:00" as minutes since midnight.
func ParseClock(text string) (int, error) {
	t, err := time.Parse("15:04", text)
	if err != nil {
		return 0, rule(ruleDates, "%q is not a clock time like 08:00", text)
	}
	return t.Hour()*60 + t.Minute(), nil
}

func (b *Build) checkMoney() error {
	for _, c := range b.Costs {
		where := "cost line " + c.ID
		if c.Task != "" && b.Task(c.Task) == nil {
			return at(missing("task", c.Task), where)
		}
		if err := first(inRange(c.Amount, 0, mostMoney, "amount", where), inRange(c.Weeks, 0, mostDays, "weeks", where)); err != nil {
			return err
		}
	}
	for _, g := range b.Gifts {
		if err := inRange(g.Amount, 0, mostMoney, "amount", "gift "+g.ID); err != nil {
			return err
		}
	}
	for _, p := range b.Spent {
		if err := b.checkPayment(p); err != nil {
			return err
		}
	}
	for _, g := range b.Kind {
		if err := inRange(g.Value, 0, mostMoney, "value", "gift in kind "+g.ID); err != nil {
			return err
		}
	}
	return first(checkBudget(b.Budget), checkSale(b.Sale))
}

// checkDone applies the rules to what people did and noted.
func (b *Build) checkDone() error {
	for _, h := range b.Hours {
		if err := first(b.checkHours(h), inRange(h.Worked, 0, mostEffort, "hours", "hours "+h.ID+", worked_h")); err != nil {
			return err
		}
	}
	for _, s := range b.Snags {
		if err := b.checkSnag(s); err != nil {
			return err
		}
	}
	for _, p := range b.Photos {
		if err := checkPhoto(p); err != nil {
			return err
		}
	}
	return nil
}
