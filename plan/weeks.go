package plan

import (
	"slices"

	"fettle/build"
	"fettle/unit"
)

// Week is the money that moves in one week.
type Week struct {
	Monday unit.Date  `json:"monday"`
	Out    unit.Money `json:"out"`
	In     unit.Money `json:"in"`
	Tin    unit.Money `json:"tin"` // what is in the tin at the week's end, from nothing at the start
}

// weeksOf lays money out by weeks, from the week the wreck came in: facts
// where they lie, hours as they are worked in the plain plan, parts when they
// are ordered, loads when they come back.
func weeksOf(n *net, p *Plan) []Week {
	f := flow{first: n.build.Promise.In.Monday()}
	f.hours(n, p)
	f.parts(n, p)
	f.loads(n, p)
	f.lines(n, p)
	for _, g := range n.build.Gifts {
		f.in(g.Day, g.Amount)
	}
	s := n.build.Sale
	price := s.Expected
	if s.Sold > 0 {
		price = s.Sold
	}
	f.in(s.Closes, price-price.Percent(s.FeePercent))
	var tin unit.Money
	for i := range f.weeks {
		tin += f.weeks[i].In - f.weeks[i].Out
		f.weeks[i].Tin = tin
	}
	return f.weeks
}

// flow collects money by week.
type flow struct {
	first unit.Date
	weeks []Week
}

// week returns the week of a day; days before the first count in it.
func (f *flow) week(d unit.Date) *Week {
	i := max(int(d.Monday()-f.first)/7, 0)
	for len(f.weeks) <= i {
		f.weeks = append(f.weeks, Week{Monday: f.first + unit.Date(7*len(f.weeks))})
	}
	return &f.weeks[i]
}

func (f *flow) in(d unit.Date, m unit.Money)  { f.week(d).In += m }
func (f *flow) out(d unit.Date, m unit.Money) { f.week(d).Out += m }

// hours spreads each person's cost over the weeks in which they work, in
// proportion to their hours there.
func (f *flow) hours(n *net, p *Plan) {
	for i, who := range n.build.People {
		var days []dayHours
		for _, h := range n.build.Hours {
			if h.Person == who.ID {
				days = append(days, dayHours{h.Start.Date(), h.Worked})
			}
		}
		for _, t := range p.Tasks {
			for _, l := range t.Legs {
				if l.Person == who.ID && l.Left > 0 && l.Finish != 0 {
					days = append(days, n.spreadOver(i, l)...)
				}
			}
		}
		var total, sofar unit.Effort
		for _, d := range days {
			total += d.hours
		}
		if total == 0 { // nothing but a premium, or hours without a day
			f.out(p.Now.Date(), p.People[i].Cost)
		}
		for _, d := range days {
			cost := p.People[i].Cost
			before := unit.MulDiv(int64(cost), int64(sofar), int64(total))
			sofar += d.hours
			f.out(d.day, unit.Money(unit.MulDiv(int64(cost), int64(sofar), int64(total))-before))
		}
	}
}

type dayHours struct {
	day   unit.Date
	hours unit.Effort
}

// spreadOver lays a leg's hours on the days its person works on it.
func (n *net) spreadOver(person int, l Leg) []dayHours {
	from, to := n.minute(l.Start), n.minute(l.Finish)
	var days []dayHours
	for _, w := range n.problem.Calendars[person] {
		if w.From >= to {
			break
		}
		if on := min(w.To, to) - max(w.From, from); on > 0 {
			days = append(days, dayHours{n.moment(w.From).Date(), unit.Effort(on)})
		}
	}
	return days
}

func (f *flow) parts(n *net, p *Plan) {
	for _, o := range p.Orders {
		part := n.build.Part(o.Part)
		if f.payments(n.build, "parts", string(part.ID)) || part.Donated {
			continue
		}
		day := part.Ordered
		if day == 0 {
			day = max(o.OrderBy, p.Now.Date())
		}
		f.out(day, part.Cost())
	}
}

func (f *flow) loads(n *net, p *Plan) {
	for _, o := range n.build.Outwork {
		if f.payments(n.build, "outwork", string(o.ID)) {
			continue
		}
		back := p.Now.Date()
		if i := slices.IndexFunc(p.Loads, func(l Load) bool { return l.ID == o.ID }); i >= 0 && p.Loads[i].Back != 0 {
			back = p.Loads[i].Back
		}
		f.out(back, o.Cost)
	}
	for _, s := range n.build.Sublets {
		f.out(n.addDays(started(p, s.Task), s.Days), s.Price)
	}
}

// started returns the day on which a task begins, or today where it has none.
func started(p *Plan, id build.TaskID) unit.Date {
	for _, t := range p.Tasks {
		if t.ID == id && t.Start != 0 {
			return t.Start.Date()
		}
	}
	return p.Now.Date()
}

// payments lays out what was paid for a thing and reports whether any was.
func (f *flow) payments(b *build.Build, purpose, ref string) bool {
	found := false
	for _, s := range b.Spent {
		if s.For == purpose && s.Ref == ref {
			f.out(s.Day, s.Amount)
			found = true
		}
	}
	return found
}

// lines lays out the other costs: what was paid, and what is left of the plan
// over the weeks, or on the day, that the line names.
func (f *flow) lines(n *net, p *Plan) {
	for _, c := range n.build.Costs {
		spent, _ := paid(n.build, "line", c.ID)
		f.payments(n.build, "line", c.ID)
		left := max(c.Amount-spent, 0)
		day := c.Day
		if c.Task != "" {
			day = started(p, c.Task)
		}
		weeks := int64(max(c.Weeks, 1))
		for i := range weeks {
			share := unit.MulDiv(int64(left), i+1, weeks) - unit.MulDiv(int64(left), i, weeks)
			f.out(day+unit.Date(7*i), unit.Money(share))
		}
	}
	for _, s := range n.build.Spent {
		if s.For == "other" {
			f.out(s.Day, s.Amount)
		}
	}
}
