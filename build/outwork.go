package build

import "fettle/unit"

// OutworkID names a load sent to an outside shop, such as O2.
type OutworkID string

// AwayState is how far a load is.
type AwayState string

// The states of a load.
const (
	ToPack  AwayState = "to pack"
	Packed  AwayState = "packed"
	Away    AwayState = "away"
	Chased  AwayState = "chased"
	Back    AwayState = "back"
	Checked AwayState = "checked"
	Claimed AwayState = "claimed"
)

// awayStates lists the states in order.
func awayStates() []AwayState {
	return []AwayState{ToPack, Packed, Away, Chased, Back, Checked, Claimed}
}

// Outwork is a load of pieces that an outside shop works on.
type Outwork struct {
	ID       OutworkID  `json:"id"`
	What     string     `json:"what"`
	Pieces   int        `json:"pieces"`
	Spec     string     `json:"spec"`
	Task     TaskID     `json:"task"`
	Out      unit.Date  `json:"planned_out,omitzero"`
	Quoted   int        `json:"quoted_days"`
	P90      int        `json:"p90_days"`        // nine loads in ten are back by then
	Cost     unit.Money `json:"cost"`            // what is paid for the work
	Donated  unit.Money `json:"given,omitempty"` // worth of the part of the work that is given, beside Cost
	NeedBy   unit.Date  `json:"need_by,omitzero"`
	State    AwayState  `json:"state"`
	Sent     unit.Date  `json:"sent,omitzero"`
	Likely   int        `json:"likely_days,omitempty"` // working days from sending, as last heard; 0 is as quoted
	Returned unit.Date  `json:"returned,omitzero"`
	Counted  int        `json:"counted_back,omitempty"`
	Short    string     `json:"short,omitempty"` // what is missing or spoiled
}

// Load returns the load of that ID, or nil.
func (b *Build) Load(id OutworkID) *Outwork {
	return find(b.Outwork, id, func(o *Outwork) OutworkID { return o.ID })
}
