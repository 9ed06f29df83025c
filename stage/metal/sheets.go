package metal

import (
	"context"
	"fmt"

	"fettle/build"
	"fettle/engine/nest"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/overlay"
	"fettle/unit"
)

// What a cut takes: a thin disc takes 1 to 1.5 mm; between two cuts a web
// stays, and the sheared edge of a sheet is not used.
const (
	Kerf   = 1500 * unit.Micrometre
	Web    = 2 * unit.Millimetre
	Margin = 5 * unit.Millimetre
)

// sheetSteps is the budget of a layout of sheet metal: under a second for some
// thirty blanks.
const sheetSteps = 400

// offcutPrice is what an offcut costs beside a whole sheet of its area: next to
// nothing, so that it is cut from where that saves one. orderPrice is for one that has to be bought.
const (
	offcutPrice = 1e-6
	orderPrice  = 3
)

// Sheets is what the blanks of one gauge are cut from, and how.
type Sheets struct {
	Plan    build.SheetPlan // its note says why blanks are missing
	Missing []string        // blanks without a place, by name
	Gap     float64         // smallest, mm
	Buy     int             // sheets beside those on the rack that would take the rest
	BuyLike build.SheetID
}

// Lay lays the blanks of a gauge on the sheets and offcuts on the rack, with as
// little begun of whole sheets as can be. What does not fit is named, with how
// many more of the largest sheet it would take. The layout has passed the exact
// checker. It is a fault where no blank or no sheet is of the gauge, or a blank
// fits on none.
func Lay(ctx context.Context, b *build.Build, gauge unit.Length, seed uint64) (Sheets, error) {
	s := Sheets{Plan: build.SheetPlan{Gauge: gauge}}
	blanks := Wanted(b, gauge)
	if len(blanks) == 0 {
		return s, fault.New(fault.Invalid, "no blank of %.1f mm is wanted", gauge.Mm())
	}
	p, rack, err := problem(b, gauge, blanks)
	if err != nil {
		return s, err
	}
	r, err := nest.Solve(ctx, p, nest.Options{Seed: seed, Steps: sheetSteps})
	if err != nil {
		return s, err
	}
	laid := map[[2]int]bool{}
	for _, at := range r.Placements {
		if at.Container >= len(rack) {
			s.Buy = max(s.Buy, at.Sheet+1)
			s.BuyLike = rack[largest(rack)].ID
			continue
		}
		laid[[2]int{at.Piece, at.Copy}] = true
		s.Plan.Placed = append(s.Plan.Placed, build.BlankPlaced{Blank: blanks[at.Piece].ID, Copy: at.Copy, Sheet: rack[at.Container].ID, Nth: at.Sheet,
			X: at.X, Y: at.Y, Rotation: at.Rotation})
	}
	for i, one := range blanks {
		for k := range one.Quantity {
			if !laid[[2]int{i, k}] {
				s.Missing = append(s.Missing, fmt.Sprintf("%s %s", one.ID, one.Name))
			}
		}
	}
	switch {
	case s.Buy > 0:
		s.Plan.Note = fmt.Sprintf("The sheets on the rack do not take every blank; %d more like %s would.", s.Buy, s.BuyLike)
	case len(s.Missing) > 0:
		s.Plan.Note = "Not every blank has a place: " + r.Reason
	}
	s.Gap = finite(r.SmallestGap)
	return s, nil
}

// problem is the layout of a gauge as the engine takes it. The last container
// is what could be bought.
func problem(b *build.Build, gauge unit.Length, blanks []build.Blank) (nest.Problem, []build.Sheet, error) {
	p := nest.Problem{Kind: nest.Bins, Clearance: Web.Mm(), Kerf: Kerf.Mm()}
	copies := 0
	for _, one := range blanks {
		copies += one.Quantity
		piece, err := pieceOf(one)
		if err != nil {
			return p, nil, fault.Within(err, "blank "+string(one.ID))
		}
		p.Pieces = append(p.Pieces, piece)
	}
	var rack []build.Sheet
	for _, s := range b.Sheets {
		if s.Gauge != gauge || s.Quantity == 0 {
			continue
		}
		c := containerOf(s)
		if s.Offcut {
			c.Cost = offcutPrice * c.Outline.Area()
		}
		rack, p.Containers = append(rack, s), append(p.Containers, c)
	}
	if len(rack) == 0 {
		return p, nil, fault.New(fault.Invalid, "no sheet of %.1f mm is on the rack", gauge.Mm()).WithHint("enter a sheet or an offcut first")
	}
	more := containerOf(rack[largest(rack)])
	more.ID, more.Count, more.Cost = more.ID+" to buy", copies, orderPrice*more.Outline.Area()
	p.Containers = append(p.Containers, more)
	return p, rack, nil
}

func largest(rack []build.Sheet) int {
	best := 0
	for i, s := range rack {
		if s.Cut().Area() > rack[best].Cut().Area() {
			best = i
		}
	}
	return best
}

func containerOf(s build.Sheet) nest.Container {
	return nest.Container{ID: string(s.ID), Outline: s.Cut().Polygon(), Margin: Margin.Mm(), Count: s.Quantity}
}

// pieceOf is a blank as the engine takes it, with what is left over. A fold
// lies across the rolling direction, which is along x.
func pieceOf(b build.Blank) (nest.Piece, error) {
	p := nest.Piece{ID: string(b.ID), Count: b.Quantity}
	w, h, o := b.Width.Mm(), b.Height.Mm(), b.Over.Mm()
	switch {
	case !b.Shape.Drawn():
		p.Rotations = []float64{0, 90, 180, 270}
		p.Shape = geom.Polygon{Outer: []geom.Point{{X: -o, Y: -o}, {X: w + o, Y: -o}, {X: w + o, Y: h + o}, {X: -o, Y: h + o}}}
	case b.Over == 0:
		p.Free, p.Shape = true, b.Shape.Polygon()
	default:
		grown, err := overlay.Offset([]geom.Polygon{b.Shape.Polygon()}, o, overlay.Round{Chord: 0.2})
		if err != nil {
			return p, err
		}
		p.Free, p.Shape = true, grown[0]
	}
	if b.Fold.Known() {
		p.Axis = &nest.Axis{Angle: b.Fold.Angle + 90, Tolerance: b.Fold.Tolerance}
	}
	return p, nil
}

// Lies is the shape of a blank, with what is left over, where it lies.
func Lies(b build.Blank, at build.BlankPlaced) (geom.Polygon, error) {
	p, err := pieceOf(b)
	if err != nil {
		return geom.Polygon{}, err
	}
	return nest.Placement{X: at.X, Y: at.Y, Rotation: at.Rotation}.Lay(p.Shape), nil
}
