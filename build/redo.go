package build

import "fettle/unit"

// RedoID names work done again.
type RedoID string

// RedoCoats is how many coats of a product go on again.
type RedoCoats struct {
	Product ProductID `json:"product"`
	Coats   int       `json:"coats"`
}

// Redo is paint that goes on again, with the hours and the days in the booth
// that it takes.
type Redo struct {
	ID     RedoID      `json:"id"`
	Panels []PanelID   `json:"panels,omitempty"`
	Zones  []ZoneID    `json:"zones,omitempty"` // left out, all zones of each product
	Why    string      `json:"why"`
	Coats  []RedoCoats `json:"coats"`
	Work   []Leg       `json:"work"`
	Days   int         `json:"booth_days,omitempty"` // working days it keeps the task waiting
	Task   TaskID      `json:"task"`                 // which it is part of
	At     unit.Moment `json:"at,omitzero"`
	By     PersonID    `json:"by,omitempty"`
}

// RedoLegs returns the hours of paint done again in a task.
func (b *Build) RedoLegs(id TaskID) []Leg {
	var legs []Leg
	for _, r := range b.Redos {
		if r.Task == id {
			legs = append(legs, r.Work...)
		}
	}
	return legs
}

// WaitOf returns the working days a task waits: its own, and those of paint
// done again.
func (b *Build) WaitOf(t Task) int {
	days := t.Wait
	for _, r := range b.Redos {
		if r.Task == t.ID {
			days += r.Days
		}
	}
	return days
}
