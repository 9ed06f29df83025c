// Package trim is the trim shop: hides, rolls, patterns, and what is cut from what.
package trim

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom"
	"fettle/internal/shapein"
	"fettle/internal/web/ui/field"
)

// editor is the page on which pieces are laid by hand, one sheet in view at a
// time: hides, rolls or metal. Lengths are millimetres with y up, angles
// degrees, anticlockwise.
type editor struct {
	Title     string
	At        string // its own path, to which the form is sent
	Draft     string // names the draft on a tablet
	Base      string // names the kept plan that it began from
	Fresh     bool   // the places were just worked out or checked: they lie over the draft
	Clearance float64
	Sheets    []editSheet
	Copies    []editCopy
	Together  [][]string // keys of copies that come from one sheet
	Checked   bool       // the exact checker has spoken
	Found     []found
	Wrong     field.Errors
	Crew      bool // may record
}

// found is one fault that the exact checker found.
type found struct {
	Key   string // of a copy; may be empty
	Words string
}

// editSheet is what pieces are laid on.
type editSheet struct {
	ID, Name string
	Outline  geom.Polygon // as it is drawn
	Line     geom.Polygon // what pieces keep the margin to; the outline where there is no other
	Zones    []editZone
	KeepOuts [][]geom.Point
	Headings []editHeading
	Margin   float64
}

// editZone is a part of a sheet that takes pieces of that quality and less;
// 0 takes nothing.
type editZone struct {
	Shape   geom.Polygon
	Quality int
	Label   string
}

type editHeading struct {
	At    geom.Point
	Angle float64
}

// editCopy is one piece to cut and where it lies.
type editCopy struct {
	Key       string // names it and its fields, such as T05 L
	Piece     build.PieceID
	Copy      int // from 0
	Name      string
	Grade     string // as said to a person; may be empty
	Shape     geom.Polygon
	Quality   int       // least quality under it
	Rotations []float64 // the only angles; nil with Free unset is 0 only
	Free      bool
	Axis      *editAxis
	Place     editPlace
}

type editAxis struct {
	Angle, Tolerance float64
	OneWay           bool
}

// editPlace is where a copy lies; no sheet is the tray.
type editPlace struct {
	Sheet      string
	X, Y, Turn float64
	Lock       bool
}

// line is what pieces keep the margin to.
func (s editSheet) line() geom.Polygon {
	if len(s.Line.Outer) == 0 {
		return s.Outline
	}
	return s.Line
}

// sheetOf returns the sheet of that ID, or nil.
func (e *editor) sheetOf(id string) *editSheet {
	for i := range e.Sheets {
		if e.Sheets[i].ID == id {
			return &e.Sheets[i]
		}
	}
	return nil
}

// on are the copies on a sheet; those of no sheet are in the tray.
func (e *editor) on(sheet string) []editCopy {
	var list []editCopy
	for _, c := range e.Copies {
		if c.Place.Sheet == sheet {
			list = append(list, c)
		}
	}
	return list
}

// Laid is the share of a sheet that pieces lie on, 0 to 1.
func (e *editor) laid(s editSheet) float64 {
	var sum float64
	for _, c := range e.on(s.ID) {
		sum += c.Shape.Area()
	}
	return sum / s.Outline.Area()
}

// lies says in words how a copy may be turned.
func (c editCopy) lies() string {
	switch {
	case c.Axis != nil:
		return fmt.Sprintf("within %.4g° of the stretch", c.Axis.Tolerance)
	case c.Free:
		return "any angle"
	}
	var all []string
	for _, r := range c.angles() {
		all = append(all, fmt.Sprintf("%.4g°", r))
	}
	return strings.Join(all, " or ")
}

func (c editCopy) angles() []float64 {
	if len(c.Rotations) == 0 {
		return []float64{0}
	}
	return c.Rotations
}

// read takes the places and keep-outs that the form says, whether a script has
// filled it in or a person typed.
func (e *editor) read(f form) {
	for i := range e.Copies {
		c := &e.Copies[i]
		p := editPlace{Sheet: f.Raw("sheet-" + c.Key), Lock: f.Has("lock-" + c.Key)}
		if p.Sheet != "" && e.sheetOf(p.Sheet) == nil {
			f.Fail("sheet-"+c.Key, "is none of the sheets")
		}
		p.X = number(f, "x-"+c.Key)
		p.Y = number(f, "y-"+c.Key)
		p.Turn = number(f, "turn-"+c.Key)
		c.Place = p
	}
	for i := range e.Sheets {
		s := &e.Sheets[i]
		rings, err := readRings(f.Raw("outs-" + s.ID))
		if err != nil {
			f.Fail("outs-"+s.ID, err.Error())
			continue
		}
		s.KeepOuts = rings
	}
}

// form is what read needs of a sent form.
type form interface {
	Raw(name string) string
	Has(name string) bool
	Fail(name, msg string)
}

// farthest is how far a typed place may lie from the origin, in mm.
const farthest = shapein.Farthest

func number(f form, name string) float64 {
	text := f.Raw(name)
	if text == "" {
		return 0
	}
	v, err := parse(text)
	if err != nil {
		f.Fail(name, "is not a number such as 120.5")
	}
	return v
}

func parse(text string) (float64, error) {
	text = strings.NewReplacer(",", ".", "−", "-").Replace(strings.TrimSpace(text))
	var v float64
	if err := json.Unmarshal([]byte(text), &v); err != nil || math.Abs(v) > farthest {
		return 0, fault.New(fault.Invalid, "%q is no number in reach", text)
	}
	return v, nil
}

// mostCorners is how many corners all keep-outs of a sheet may have.
const mostCorners = 2000

// readRings reads keep-outs, one a line: x y, x y, x y.
func readRings(text string) ([][]geom.Point, error) {
	var rings [][]geom.Point
	corners := 0
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		var ring []geom.Point
		for corner := range strings.SplitSeq(line, ",") {
			xy := strings.Fields(corner)
			if len(xy) != 2 {
				return nil, fault.New(fault.Invalid, "%q is no corner such as 100 250", strings.TrimSpace(corner))
			}
			x, err := parse(xy[0])
			if err != nil {
				return nil, err
			}
			y, err := parse(xy[1])
			if err != nil {
				return nil, err
			}
			ring = append(ring, geom.Point{X: x, Y: y})
		}
		if corners += len(ring); len(ring) < 3 || corners > mostCorners {
			return nil, fault.New(fault.Invalid, "a keep-out needs 3 corners, and all of them at most %d", mostCorners)
		}
		rings = append(rings, ring)
	}
	return rings, nil
}
