package build

import "fettle/unit"

// FoamID names a block of foam.
type FoamID string

// Foam is a block of foam, or several alike.
type Foam struct {
	ID        FoamID      `json:"id"`
	Name      string      `json:"name"`
	Kind      string      `json:"kind"`              // as the supplier calls it
	Density   float64     `json:"density_kg_m3"`     // its life
	ILD       float64     `json:"ild_lbf,omitempty"` // its feel: the force on 50 in² at 25 % compression
	Width     unit.Length `json:"width_mm"`
	Height    unit.Length `json:"height_mm"`
	Thickness unit.Length `json:"thickness_mm"`
	Quantity  int         `json:"quantity"`
	Where     string      `json:"where,omitempty"`
	Pieces    []PieceID   `json:"pieces,omitempty"` // that cover it
	Part      PartID      `json:"part,omitempty"`
}

// BoardID names a board.
type BoardID string

// Board is what a covering is glued on: a door card, a headliner board.
type Board struct {
	ID        BoardID     `json:"id"`
	Name      string      `json:"name"`
	Material  string      `json:"material"`
	Width     unit.Length `json:"width_mm"`
	Height    unit.Length `json:"height_mm"`
	Thickness unit.Length `json:"thickness_mm"`
	Shape     Shape       `json:"shape,omitzero"` // none is the rectangle
	Quantity  int         `json:"quantity"`
	ClipPitch unit.Length `json:"clip_pitch_mm,omitempty"` // along its edge, at most; none has no clips
	Pieces    []PieceID   `json:"pieces,omitempty"`        // that cover it
	Part      PartID      `json:"part,omitempty"`
	ClipPart  PartID      `json:"clips_part,omitempty"`
}

// Cut is the outline of the board.
func (d Board) Cut() Shape {
	if d.Shape.Drawn() {
		return d.Shape
	}
	return Box(d.Width, d.Height)
}

// DeadenerID names sound deadening.
type DeadenerID string

// Deadener is sound deadening on the inside of panels.
type Deadener struct {
	ID     DeadenerID `json:"id"`
	Name   string     `json:"name"`
	Panels []PanelID  `json:"panels,omitempty"`
	Area   unit.Area  `json:"area_m2"`
	Mass   float64    `json:"kg_m2"`
	Part   PartID     `json:"part,omitempty"`
}

// GlueID names a glued joint.
type GlueID string

// Glue is a joint with contact adhesive: what is glued, on so many faces.
type Glue struct {
	ID      GlueID    `json:"id"`
	Name    string    `json:"name"`
	Product string    `json:"product,omitempty"`
	Area    unit.Area `json:"area_m2"`               // of the joint
	Faces   int       `json:"faces"`                 // that are coated: 2 with contact adhesive
	Spread  float64   `json:"spread_m2_l,omitempty"` // of one face, from its sheet; none is the trade's
	HeatTo  float64   `json:"heat_to_c,omitempty"`   // what its sheet says it bears
	Vinyl   bool      `json:"for_vinyl,omitempty"`   // its sheet allows plasticised vinyl
	Pieces  []PieceID `json:"pieces,omitempty"`
	Part    PartID    `json:"part,omitempty"`
}

// Foam returns the foam of that ID, or nil.
func (b *Build) Foam(id FoamID) *Foam {
	return find(b.Foams, id, (*Foam).key)
}

// Board returns the board of that ID, or nil.
func (b *Build) Board(id BoardID) *Board {
	return find(b.Boards, id, (*Board).key)
}

// Deadener returns the sound deadening of that ID, or nil.
func (b *Build) Deadener(id DeadenerID) *Deadener {
	return find(b.Deadening, id, (*Deadener).key)
}

// Glue returns the glued joint of that ID, or nil.
func (b *Build) Glue(id GlueID) *Glue {
	return find(b.Glues, id, (*Glue).key)
}

func (f *Foam) key() FoamID { return f.ID }

func (b *Board) key() BoardID { return b.ID }

func (d *Deadener) key() DeadenerID { return d.ID }

func (g *Glue) key() GlueID { return g.ID }
