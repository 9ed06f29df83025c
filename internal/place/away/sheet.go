package away

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/web"
	"fettle/internal/web/ui/mark"
	"fettle/plan"
	"fettle/unit"
)

// sheet is what the pages of the place know.
type sheet struct {
	Base   string // /b/pedlar
	Name   string // short name of the build
	Build  *build.Build
	Plan   *plan.Plan
	Today  unit.Date
	Now    unit.Moment
	Crew   bool // may act
	Hidden bool // prices are kept back
}

func (p place) load(r *web.Request) (sheet, error) {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return sheet{}, err
	}
	return sheet{Base: "/b/" + r.Build(), Name: r.Build(), Build: &view.Build, Plan: pl, Today: view.Now.Date(), Now: view.Now,
		Crew: r.Person().Role >= account.Crew, Hidden: r.Query("prices") == "hide"}, nil
}

// card is a load with its dates.
type card struct {
	plan.Load
	Facts  build.Outwork `json:"facts"`
	Before []build.Task  `json:"-"` // not finished, and the load waits for them
	Waits  []build.Task  `json:"-"` // not finished, and they wait for the load
	Photos []build.Photo `json:"-"`
	Room   int           `json:"room_days"` // working days it may slip: its float, and that of the loads that alone wait for it
	Wanted []build.Part  `json:"-"`         // pieces to get again because they did not come back
}

func (s sheet) cards() []card {
	list := make([]card, 0, len(s.Plan.Loads))
	for _, l := range s.Plan.Loads {
		list = append(list, s.card(l))
	}
	return list
}

func (s sheet) card(l plan.Load) card {
	c := card{Load: l, Facts: *s.Build.Load(l.ID)}
	if s.Hidden {
		c.Cost, c.Facts.Cost, c.Facts.Donated, c.Figure.Inputs = 0, 0, 0, nil
	}
	own := s.Build.Task(c.Facts.Task)
	for _, t := range s.Build.Tasks {
		if own != nil && slices.Contains(own.After, t.ID) && t.State != build.Finished {
			c.Before = append(c.Before, t)
		}
		if slices.Contains(t.After, c.Facts.Task) && t.State != build.Finished {
			c.Waits = append(c.Waits, t)
		}
	}
	c.Room = c.Float
	for _, ph := range s.Build.Photos {
		if ph.Of == "load/"+string(l.ID) && (s.Crew || !ph.Quiet) {
			c.Photos = append(c.Photos, ph)
		}
	}
	for _, part := range s.Build.Parts {
		if strings.HasPrefix(part.Name, missingMark(l.ID)) {
			c.Wanted = append(c.Wanted, part)
		}
	}
	return c
}

// missingMark begins the name of a part that stands for a piece that did not
// come back with a load.
func missingMark(id build.OutworkID) string { return "missing from " + string(id) + ": " }

func (s sheet) named(id string) (card, error) {
	for _, l := range s.Plan.Loads {
		if string(l.ID) == id {
			return s.card(l), nil
		}
	}
	return card{}, fault.New(fault.NotFound, "there is no load %q", id).WithHint("the place Away lists every load")
}

func (c card) out() bool { return c.State == build.Away || c.State == build.Chased }

func (c card) here() bool {
	return c.State == build.Back || c.State == build.Checked || c.State == build.Claimed
}

func (c card) home() bool { return c.State == build.ToPack || c.State == build.Packed }

// room puts the float of a load into a word: safe while even nine loads in ten
// would be in time.
func (c card) room() (mark.Meaning, string) {
	switch {
	case c.State == build.Claimed && len(c.Wanted) > 0:
		return mark.Slipping, fmt.Sprintf("%d of %d back", c.Facts.Counted, c.Pieces)
	case c.State == build.Claimed:
		return mark.Tight, fmt.Sprintf("%d of %d back", c.Facts.Counted, c.Pieces)
	case c.here():
		return mark.Safe, "back"
	case c.NeedBy == 0:
		return mark.Safe, "nothing waits"
	case c.Room <= 0:
		return mark.Slipping, "nothing to spare"
	case c.Room < c.Facts.P90-c.Days:
		return mark.Tight, days(c.Room) + " to spare"
	}
	return mark.Safe, days(c.Room) + " to spare"
}

func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

func (s sheet) money(m unit.Money) string {
	if s.Hidden {
		return "–"
	}
	return s.Build.Currency.Format(m)
}

// price says what a load costs the tin and what is given.
func (s sheet) price(o build.Outwork) string {
	switch {
	case s.Hidden || o.Donated == 0:
		return s.money(o.Cost)
	case o.Cost == 0:
		return "given, worth " + s.money(o.Donated)
	}
	return s.money(o.Cost) + ", and " + s.money(o.Donated) + " given"
}

// bagsOut lists the bags that are out at some outside shop.
func (s sheet) bagsOut() []build.Bag {
	var list []build.Bag
	for _, x := range s.Build.Bags {
		if x.State == build.BagOut {
			list = append(list, x)
		}
	}
	return list
}
