package build

import "fettle/unit"

// HideID names a hide.
type HideID string

// Hide is a hide in the trim shop. It is drawn face up, in millimetres.
type Hide struct {
	ID       HideID     `json:"id"`
	Material string     `json:"material"`
	Lot      string     `json:"dye_lot"`
	Area     unit.Area  `json:"area_m2"` // as the tannery measured it
	Usable   float64    `json:"usable"`
	Price    unit.Money `json:"price"`
	Half     bool       `json:"half,omitempty"` // cut along the backbone
	Refused  bool       `json:"refused,omitempty"`
	Why      string     `json:"why,omitempty"` // it was refused

	Outline      Shape       `json:"outline,omitzero"`
	OutlineError unit.Length `json:"outline_error_mm,omitempty"` // how far the line may be off; added to the margin
	Photo        PhotoHash   `json:"photo,omitempty"`            // the picture it was drawn from
	Zones        []HideZone  `json:"zones,omitempty"`
	Headings     []Heading   `json:"headings,omitempty"`
	Marks        []Mark      `json:"marks,omitempty"`
	KeepOuts     []Shape     `json:"keep_outs,omitempty"` // drawn by hand: nothing is cut from here
}

// HideZone is a part of a hide and the best grade of piece that it is good
// for. What lies in no zone is good for all.
type HideZone struct {
	Shape Shape  `json:"shape"`
	Grade string `json:"grade"`          // A is seen first, C is hidden
	Part  string `json:"part,omitempty"` // such as neck, belly, shank
}

// Heading is the direction of least stretch near a place.
type Heading struct {
	At    Spot    `json:"at_mm"`
	Angle float64 `json:"angle_deg"` // anticlockwise from x
}

// Mark is a fault of a hide.
type Mark struct {
	ID    string `json:"id"`
	Kind  string `json:"kind"`
	Shape Shape  `json:"shape"`
	Grade string `json:"grade,omitempty"` // the best grade of piece that may lie on it; none takes nothing, as a hole
	Note  string `json:"note,omitempty"`
}

// Grades lists the grades of a piece and of material, the best first.
func Grades() []string { return []string{"A", "B", "C"} }

// MarkKinds lists what marks are called.
func MarkKinds() []string {
	return []string{"hole", "flay cut", "brand", "scar", "scratch", "insect bites", "vein", "growth wrinkle", "stain", "loose grain", "other"}
}

// Hide returns the hide of that ID, or nil.
func (b *Build) Hide(id HideID) *Hide {
	return find(b.Hides, id, func(h *Hide) HideID { return h.ID })
}

// Mark returns the mark of that ID on the hide, or nil.
func (h *Hide) Mark(id string) *Mark {
	return find(h.Marks, id, func(m *Mark) string { return m.ID })
}
