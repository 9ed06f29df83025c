package build

import "fettle/unit"

// PieceID names a shape of the interior.
type PieceID string

// Piece is one shape of the interior.
type Piece struct {
	ID       PieceID     `json:"id"`
	Name     string      `json:"name"`
	Width    unit.Length `json:"width_mm"`
	Height   unit.Length `json:"height_mm"`
	Quantity int         `json:"quantity"`
	Material string      `json:"material"`
	Grade    string      `json:"grade"`          // A is seen first, C is hidden
	Shape    Shape       `json:"shape,omitzero"` // cut size, seam included; none is the rectangle
	Axis     Axis        `json:"axis,omitzero"`
	Match    Match       `json:"match,omitzero"`
	Handed   bool        `json:"handed,omitempty"` // the 2nd, 4th … copy is the mirror image, for the other side
	Pair     PieceID     `json:"pair,omitempty"`   // its left or right mate: each copy comes from the hide of its mate's
	Group    string      `json:"group,omitempty"`  // pieces of one group come from one hide
	Face     string      `json:"face,omitempty"`   // pieces of one face are seen together, so they are of one dye lot
}

// Axis is the direction in which a piece must not give. On a hide it lies along
// the direction of least stretch, on a roll along its length. A piece without
// a tolerance has none and lies as it likes.
type Axis struct {
	Angle     float64 `json:"angle_deg"` // in the piece's own drawing, anticlockwise from x
	Tolerance float64 `json:"tolerance_deg"`
}

// Match says that a piece keeps to the pattern of its roll, as mates do that
// continue each other's pleats, stripes or plaid: a place of its drawing lies
// where the pattern begins.
type Match struct {
	Along  bool `json:"along,omitempty"`  // the length of the roll
	Across bool `json:"across,omitempty"` // its width
	At     Spot `json:"at_mm,omitzero"`   // in the piece's own drawing
}

// Known tells whether the direction matters.
func (a Axis) Known() bool { return a.Tolerance > 0 }

// Cut is the piece's own shape, or its rectangle.
func (p Piece) Cut() Shape {
	if p.Shape.Drawn() {
		return p.Shape
	}
	return Box(p.Width, p.Height)
}

// Area returns the surface of all copies, at cut size.
func (p Piece) Area() unit.Area {
	return unit.Area(p.Quantity) * unit.Rect(p.Width, p.Height)
}

// RollID names a cloth, carpet or vinyl by the metre.
type RollID string

// Roll is a material that is bought by the metre.
type Roll struct {
	ID       RollID      `json:"id"`
	Material string      `json:"material"`
	Width    unit.Length `json:"width_mm"`
	Edge     unit.Length `json:"edge_mm,omitempty"`          // nothing is cut from this much along either edge and at the end
	Gap      unit.Length `json:"gap_mm,omitempty"`           // left between two pieces
	Nap      bool        `json:"nap,omitempty"`              // all pieces lie one way
	Repeat   unit.Length `json:"repeat_mm,omitempty"`        // after how much length the pattern comes again
	Across   unit.Length `json:"repeat_across_mm,omitempty"` // and after how much width
	Begins   Spot        `json:"pattern_at_mm,omitzero"`     // a place where it begins, from the squared end and the lower edge
	Lot      string      `json:"dye_lot,omitempty"`
	Price    unit.Money  `json:"price_m"` // of a metre
	Part     PartID      `json:"part,omitempty"`
}

// Piece returns the piece of that ID, or nil.
func (b *Build) Piece(id PieceID) *Piece {
	return find(b.Pieces, id, func(p *Piece) PieceID { return p.ID })
}

// Roll returns the roll of that ID, or nil.
func (b *Build) Roll(id RollID) *Roll {
	return find(b.Rolls, id, func(r *Roll) RollID { return r.ID })
}

// Motif is the one drawing that is carried through the whole vehicle.
type Motif struct {
	Name   string       `json:"name"`
	Rules  []string     `json:"rules"`
	Places []MotifPlace `json:"places"`
}

// MotifPlace is one place where the motif appears.
type MotifPlace struct {
	ID      string      `json:"id"`
	Where   string      `json:"where"`
	Width   unit.Length `json:"width_mm"`
	Height  unit.Length `json:"height_mm,omitempty"`
	Note    string      `json:"note,omitempty"`
	Process string      `json:"process"`
	Colour  string      `json:"colour"`
	Needs   []TaskID    `json:"needs"`
}
