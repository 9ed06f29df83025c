package build

import "fettle/unit"

// Group is an assembly that was taken apart into bags.
type Group struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Bags   int    `json:"bags"`
	Pieces int    `json:"pieces"`
}

// BagID names a bag, such as G04-11. A number is never used again.
type BagID string

// BagState is where a bag is.
type BagState string

// The states of a bag.
const (
	OnShelf   BagState = "on shelf"
	BagOut    BagState = "out"
	AtBench   BagState = "at bench"
	BagFitted BagState = "fitted"
	BagShort  BagState = "short"
	Retired   BagState = "retired"
)

// bagStates lists the states.
func bagStates() []BagState {
	return []BagState{OnShelf, BagOut, AtBench, BagFitted, BagShort, Retired}
}

// Bag is one numbered bag of pieces.
type Bag struct {
	ID     BagID       `json:"id"`
	Group  string      `json:"group"`
	What   string      `json:"what,omitempty"`
	Pieces int         `json:"pieces"`
	Shelf  string      `json:"shelf,omitempty"`
	State  BagState    `json:"state"`
	Photos []PhotoHash `json:"photos,omitempty"`
}

// Route is what happens to some of the pieces.
type Route struct {
	Name   string    `json:"name"`
	Pieces int       `json:"pieces"`
	Mass   unit.Mass `json:"mass_kg,omitempty"`
	Note   string    `json:"note,omitempty"`
}

// MissingPiece is a piece that was not there when the bags were counted.
type MissingPiece struct {
	What string `json:"what"`
	Bag  BagID  `json:"bag,omitempty"`
	Part PartID `json:"part,omitempty"`
}

// Bag returns the bag of that ID, or nil.
func (b *Build) Bag(id BagID) *Bag {
	return find(b.Bags, id, func(x *Bag) BagID { return x.ID })
}
