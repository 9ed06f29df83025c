package build

import "fettle/unit"

// Hours is time of one person on one task. An open one has no Stop.
type Hours struct {
	ID      string      `json:"id"`
	Person  PersonID    `json:"person"`
	Task    TaskID      `json:"task"`
	Finding FindingID   `json:"finding,omitempty"`
	Start   unit.Moment `json:"start"`
	Stop    unit.Moment `json:"stop,omitzero"`
	Worked  unit.Effort `json:"worked_h"` // 0 while open
	Note    string      `json:"note,omitempty"`
}

// Clocked returns the open entry of a person, or nil.
func (b *Build) Clocked(p PersonID) *Hours {
	for i := range b.Hours {
		if b.Hours[i].Person == p && b.Hours[i].Stop == 0 {
			return &b.Hours[i]
		}
	}
	return nil
}

// PhotoHash is the SHA-256 of a photo's bytes, in hex.
type PhotoHash string

// Photo is a picture kept in the vault and the thing it was taken of.
type Photo struct {
	Hash  PhotoHash   `json:"hash"`
	Of    string      `json:"of"` // such as finding/F32, panel/P02, bag/G04-11
	What  string      `json:"what,omitempty"`
	Taken unit.Moment `json:"taken"`
	By    PersonID    `json:"by"`
	Quiet bool        `json:"quiet,omitempty"` // not to be shown outside the shop
}

// Snag is something to put right before hand-over.
type Snag struct {
	ID    string      `json:"id"`
	What  string      `json:"what"`
	Where string      `json:"where,omitempty"`
	Owner PersonID    `json:"owner,omitempty"`
	Due   unit.Date   `json:"due,omitzero"`
	Stops bool        `json:"stops_handover,omitempty"`
	Begun unit.Moment `json:"raised"`
	Done  unit.Moment `json:"done,omitzero"`
}

// Note is a word kept with the build, such as a refusal with its figures.
type Note struct {
	At   unit.Moment `json:"at"`
	By   PersonID    `json:"by"`
	On   string      `json:"on,omitempty"`
	Text string      `json:"text"`
}
