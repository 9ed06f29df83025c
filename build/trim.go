package build

import "fettle/unit"

// Piece is one shape of the interior.
type Piece struct {
	ID       string      `json:"id"`
	Name     string      `json:"name"`
	Width    unit.Length `json:"width_mm"`
	Height   unit.Length `json:"height_mm"`
	Quantity int         `json:"quantity"`
	Material string      `json:"material"`
	Grade    string      `json:"grade"` // A is seen first, C is hidden
}

// Area returns the surface of all copies, at cut size.
func (p Piece) Area() unit.Area {
	return unit.Area(p.Quantity) * unit.Rect(p.Width, p.Height)
}

// Hide is a hide in the trim shop.
type Hide struct {
	ID       string     `json:"id"`
	Material string     `json:"material"`
	Lot      string     `json:"dye_lot"`
	Area     unit.Area  `json:"area_m2"`
	Usable   float64    `json:"usable"`
	Price    unit.Money `json:"price"`
	Refused  bool       `json:"refused,omitempty"`
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
