package metal

import (
	"fettle/build"
	"fettle/engine/nest"
	"fettle/fault"
	"fettle/geom"
	"fettle/unit"
)

// What a cut takes: a thin disc takes 1 to 1.5 mm; between two cuts a web
// stays, and the sheared edge of a sheet is not used.
const (
	Kerf   = 1500 * unit.Micrometre
	Web    = 2 * unit.Millimetre
	Margin = 5 * unit.Millimetre
)

// offcutPrice is what an offcut costs beside a whole sheet of its area: next to
// nothing. orderPrice is for a sheet that has to be bought.
const (
	offcutPrice = 1e-6
	orderPrice  = 3
)

// rack is the sheet metal of a gauge that there is, and what more is bought
// like.
type rack struct {
	Sheets []build.Sheet
	Like   build.Sheet
}

// rackOf is a fault where nothing of the gauge is on the rack, and no whole
// sheet of it was.
func rackOf(sheets []build.Sheet, gauge unit.Length) (rack, error) {
	var r rack
	for _, s := range sheets {
		if s.Gauge != gauge {
			continue
		}
		if s.Quantity > 0 {
			r.Sheets = append(r.Sheets, s)
		}
		if like := r.Like; like.ID == "" || like.Offcut && !s.Offcut || like.Offcut == s.Offcut && s.Cut().Area() > like.Cut().Area() {
			r.Like = s
		}
	}
	if r.Like.ID == "" || r.Like.Offcut && len(r.Sheets) == 0 {
		return r, fault.New(fault.Invalid, "no sheet of %.1f mm is on the rack", gauge.Mm()).WithHint("enter a sheet or an offcut first")
	}
	return r, nil
}

// problem is the layout of a gauge as the engine takes it. The last container
// is what could be bought.
func problem(r rack, blanks []build.Blank) (nest.Problem, error) {
	p := nest.Problem{Kind: nest.Bins, Clearance: Web.Mm(), Kerf: Kerf.Mm()}
	copies := 0
	for _, one := range blanks {
		copies += one.Left()
		piece, err := pieceOf(one)
		if err != nil {
			return p, fault.Within(err, "blank "+string(one.ID))
		}
		p.Pieces = append(p.Pieces, piece)
	}
	for _, s := range r.Sheets {
		c := containerOf(s)
		if s.Offcut {
			c.Cost = offcutPrice * c.Outline.Area()
		}
		p.Containers = append(p.Containers, c)
	}
	more := containerOf(r.Like)
	more.ID, more.Count, more.Cost = more.ID+" to buy", copies, orderPrice*more.Outline.Area()
	p.Containers = append(p.Containers, more)
	return p, nil
}

func containerOf(s build.Sheet) nest.Container {
	return nest.Container{ID: string(s.ID), Outline: s.Cut().Polygon(), Margin: Margin.Mm(), Count: s.Quantity}
}

// pieceOf is a blank as the engine takes it, with what is left over. A fold
// lies across the rolling direction, which is along x.
func pieceOf(b build.Blank) (nest.Piece, error) {
	p := nest.Piece{ID: string(b.ID), Count: b.Left()}
	w, h, o := b.Width.Mm(), b.Height.Mm(), b.Over.Mm()
	switch {
	case !b.Shape.Drawn():
		p.Rotations = []float64{0, 90, 180, 270}
		p.Shape = geom.Polygon{Outer: []geom.Point{{X: -o, Y: -o}, {X: w + o, Y: -o}, {X: w + o, Y: h + o}, {X: -o, Y: h + o}}}
	default:
		grown, err := CutLine(b.Shape.Polygon(), b.Over)
		if err != nil {
			return p, err
		}
		p.Free, p.Shape = true, grown
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
