package build

import (
	"fmt"

	"fettle/unit"
)

// PartID names a part, such as Q11.
type PartID string

// OrderState is how far an order is.
type OrderState string

// The states of an order.
const (
	Wanted   OrderState = "wanted"
	Ordered  OrderState = "ordered"
	Promised OrderState = "promised"
	Late     OrderState = "late"
	In       OrderState = "in"
	Wrong    OrderState = "wrong"
	SentBack OrderState = "sent back"
	Given    OrderState = "given"
)

// orderStates lists the states in order.
func orderStates() []OrderState {
	return []OrderState{Wanted, Ordered, Promised, Late, In, Wrong, SentBack, Given}
}

// Part is something to buy or to be given.
type Part struct {
	ID       PartID      `json:"id"`
	Name     string      `json:"name"`
	Quantity int         `json:"quantity"`
	Price    unit.Money  `json:"unit_price"`
	Lead     int         `json:"lead_days"` // working days from order to arrival
	Task     TaskID      `json:"needed_for"`
	AtEnd    bool        `json:"at_end,omitempty"` // only the last of the task needs it
	Donated  bool        `json:"donated,omitempty"`
	Supplier string      `json:"supplier,omitempty"`
	Because  []FindingID `json:"because,omitempty"`
	State    OrderState  `json:"state"`
	Ordered  unit.Date   `json:"ordered,omitzero"`
	Promised unit.Date   `json:"promised,omitzero"`
	Arrived  unit.Date   `json:"arrived,omitzero"`
	Received int         `json:"received,omitempty"`
}

// Cost returns quantity times unit price.
func (p Part) Cost() unit.Money { return unit.Money(p.Quantity) * p.Price }

// Part returns the part of that ID, or nil.
func (b *Build) Part(id PartID) *Part {
	return find(b.Parts, id, func(p *Part) PartID { return p.ID })
}

// NextPart returns the number that a new part gets: one more than the highest.
func (b *Build) NextPart() PartID {
	highest := 0
	for _, p := range b.Parts {
		var n int
		if _, err := fmt.Sscanf(string(p.ID), "Q%d", &n); err == nil {
			highest = max(highest, n)
		}
	}
	return PartID(fmt.Sprintf("Q%02d", highest+1))
}
