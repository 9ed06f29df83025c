package build

import "fettle/unit"

// TradeID names a trade, such as MW.
type TradeID string

// Trade is a kind of work that people can do.
type Trade struct {
	ID   TradeID `json:"id"`
	Name string  `json:"name"`
}

// PersonID names a person.
type PersonID string

// Person is one pair of hands with their own week.
type Person struct {
	ID       PersonID       `json:"id"`
	Name     string         `json:"name"`
	Trades   []TradeID      `json:"trades"`           // first is their own; the others they can help with
	Starts   string         `json:"starts"`           // clock time of the working day, such as 08:00
	Week     [7]unit.Effort `json:"week_h"`           // hours on Monday … Sunday
	Rate     unit.Money     `json:"rate"`             // cost of an hour
	Given    unit.Effort    `json:"given_h"`          // hours given, not paid, of what the plan needs
	GivenAll bool           `json:"given_all"`        // all hours are given
	Saturday unit.Effort    `json:"saturday_h"`       // possible overtime on a Saturday
	Premium  int            `json:"premium_percent"`  // added to Rate for overtime
	Help     unit.Effort    `json:"help_h,omitempty"` // hours they could lend to the other trades they know
	Booth    bool           `json:"booth_approved"`   // may spray in the booth
	Notes    string         `json:"notes,omitempty"`  // what others should know
	Helps    bool           `json:"helper,omitempty"` // hours are kept but neither planned nor valued
}

// PerWeek returns the hours of a plain week.
func (p Person) PerWeek() unit.Effort {
	var sum unit.Effort
	for _, h := range p.Week {
		sum += h
	}
	return sum
}

// Does reports whether the person can do a trade.
func (p Person) Does(t TradeID) bool {
	for _, own := range p.Trades {
		if own == t {
			return true
		}
	}
	return false
}

// Closure is a run of days on which the shop is shut, first and last included.
type Closure struct {
	First unit.Date `json:"first"`
	Last  unit.Date `json:"last"`
	Why   string    `json:"why"`
}

// Absence is a run of days on which one person is away.
type Absence struct {
	Person PersonID  `json:"person"`
	First  unit.Date `json:"first"`
	Last   unit.Date `json:"last"`
	Why    string    `json:"why"`
}

// Overtime is extra hours of one person on one day, outside their week.
type Overtime struct {
	Person PersonID    `json:"person"`
	Day    unit.Date   `json:"day"`
	Hours  unit.Effort `json:"hours_h"`
}

// Bay is a bay, a booth or a loft that holds a few tasks at a time.
type Bay struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Units int    `json:"units"`

	Clearance int `json:"clearance_min,omitempty"` // minutes after the last coat before anyone enters without air
}

// Person returns the person of that ID, or nil.
func (b *Build) Person(id PersonID) *Person {
	return find(b.People, id, func(p *Person) PersonID { return p.ID })
}

// Trade returns the trade of that ID, or nil.
func (b *Build) Trade(id TradeID) *Trade {
	return find(b.Trades, id, func(t *Trade) TradeID { return t.ID })
}
