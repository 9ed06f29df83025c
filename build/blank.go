package build

import (
	"slices"

	"fettle/unit"
)

// BlankID names a blank.
type BlankID string

// Blank is a piece of sheet metal to be cut: a patch, a strip, a small panel.
type Blank struct {
	ID       BlankID     `json:"id"`
	Name     string      `json:"name"`
	Finding  FindingID   `json:"finding,omitempty"` // what it mends
	Gauge    unit.Length `json:"gauge_mm"`
	Width    unit.Length `json:"width_mm"` // laid flat, without what is left over
	Height   unit.Length `json:"height_mm"`
	Quantity int         `json:"quantity"`
	Shape    Shape       `json:"shape,omitzero"`    // laid flat; none is the rectangle
	Over     unit.Length `json:"over_mm,omitempty"` // left over on every side, to be scribed in place and trimmed
	Done     int         `json:"cut,omitempty"`     // copies that are cut already
	Fold     Axis        `json:"fold,omitzero"`     // the line it is folded along, which lies across the way the sheet was rolled
	Profile  Profile     `json:"profile,omitzero"`  // how it is folded
	Surface  SurfaceID   `json:"surface,omitempty"` // that its shape was laid flat from
	Scan     ScanHash    `json:"scan,omitempty"`    // which scan of it
}

// Left is how many copies are still to be cut.
func (p Blank) Left() int { return p.Quantity - p.Done }

// Cut is the shape to be cut, without what is left over.
func (p Blank) Cut() Shape {
	if p.Shape.Drawn() {
		return p.Shape
	}
	return Box(p.Width, p.Height)
}

// SheetID names a sheet, or several alike.
type SheetID string

// Sheet is sheet metal on the rack, or what is left of it. Its rolling
// direction is along x.
type Sheet struct {
	ID       SheetID     `json:"id"`
	Name     string      `json:"name"`
	Gauge    unit.Length `json:"gauge_mm"`
	Width    unit.Length `json:"width_mm"`
	Height   unit.Length `json:"height_mm"`
	Quantity int         `json:"quantity"`
	Shape    Shape       `json:"shape,omitzero"`   // of an offcut; none is the rectangle
	Offcut   bool        `json:"offcut,omitempty"` // used first
	Part     PartID      `json:"part,omitempty"`   // what it was ordered as
}

// Cut is the outline of the sheet.
func (s Sheet) Cut() Shape {
	if s.Shape.Drawn() {
		return s.Shape
	}
	return Box(s.Width, s.Height)
}

// SheetPlan is the kept cut plan of a gauge: which blank lies on which sheet.
type SheetPlan struct {
	Gauge  unit.Length   `json:"gauge_mm"`
	Placed []BlankPlaced `json:"placed"`
	Note   string        `json:"note,omitempty"`     // such as why a blank has no place
	Buy    int           `json:"buy,omitempty"`      // sheets beside those on the rack that the rest would take
	Like   SheetID       `json:"buy_like,omitempty"` // of what size
	Job    string        `json:"job,omitempty"`      // the key of what worked it out; none was done at once
}

// BlankPlaced is where one copy of a blank lies: its shape is turned about the
// origin of its own drawing and then moved.
type BlankPlaced struct {
	Blank    BlankID `json:"blank"`
	Copy     int     `json:"copy"` // from 0, of those still to be cut
	Sheet    SheetID `json:"sheet"`
	Nth      int     `json:"nth"` // which of the sheets of that ID, from 0
	X        float64 `json:"x_mm"`
	Y        float64 `json:"y_mm"`
	Rotation float64 `json:"rotation_deg"` // anticlockwise
}

// Blank returns the blank of that ID, or nil.
func (b *Build) Blank(id BlankID) *Blank {
	return find(b.Blanks, id, func(p *Blank) BlankID { return p.ID })
}

// Sheet returns the sheet of that ID, or nil.
func (b *Build) Sheet(id SheetID) *Sheet {
	return find(b.Sheets, id, func(s *Sheet) SheetID { return s.ID })
}

// SheetPlan returns the kept cut plan of a gauge, or nil.
func (b *Build) SheetPlan(gauge unit.Length) *SheetPlan {
	return find(b.SheetPlans, gauge, func(p *SheetPlan) unit.Length { return p.Gauge })
}

// Gauges lists the gauges that blanks are wanted of, thin first.
func (b *Build) Gauges() []unit.Length {
	var list []unit.Length
	for _, p := range b.Blanks {
		if !slices.Contains(list, p.Gauge) {
			list = append(list, p.Gauge)
		}
	}
	slices.Sort(list)
	return list
}
