package nestfile

import (
	"fmt"
	"math"
	"strings"

	"fettle/engine/nest"
	"fettle/fault"
	"fettle/geom"
)

// typeShape is a rectangle, a polygon or a circle about the origin.
type typeShape struct {
	Type   string  `json:"type"`
	Width  float64 `json:"width"`
	Height float64 `json:"height"`
	X      float64 `json:"x"`
	Y      float64 `json:"y"`
	Radius float64 `json:"radius"`
	Points []struct {
		X float64 `json:"x"`
		Y float64 `json:"y"`
	} `json:"vertices"`
	Holes []typeShape `json:"holes"`
}

// sides is how many a circle is cut into: it is drawn around the circle for a
// piece, into it for material.
const sides = 64

func (s typeShape) polygon(piece bool) (geom.Polygon, error) {
	var p geom.Polygon
	switch s.Type {
	case "rectangle":
		p.Outer = []geom.Point{{X: s.X, Y: s.Y}, {X: s.X + s.Width, Y: s.Y}, {X: s.X + s.Width, Y: s.Y + s.Height}, {X: s.X, Y: s.Y + s.Height}}
	case "polygon":
		r := make(geom.Ring, len(s.Points))
		for i, q := range s.Points {
			r[i] = geom.Point{X: q.X, Y: q.Y}
		}
		p.Outer = r.Tidy()
	case "circle":
		radius := s.Radius
		if piece {
			radius /= math.Cos(math.Pi / sides)
		}
		for i := range sides {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / sides)
			p.Outer = append(p.Outer, geom.Point{X: s.X + radius*cos, Y: s.Y + radius*sin})
		}
	default:
		return p, wrong("type", "a shape of type %q is not read", s.Type).WithHint("rectangle, polygon or circle")
	}
	for i, h := range s.Holes {
		hole, err := h.polygon(!piece)
		if err != nil || len(hole.Holes) > 0 {
			return p, wrong(fmt.Sprintf("holes[%d]", i), "it is no plain shape: %v", err)
		}
		p.Holes = append(p.Holes, hole.Outer)
	}
	return p, nil
}

type typeItem struct {
	typeShape
	Copies    *int    `json:"copies"`
	Profit    float64 `json:"profit"`
	Mirroring bool    `json:"allow_mirroring"`
	Rotations []struct {
		Start  float64 `json:"start"`
		End    float64 `json:"end"`
		Mirror bool    `json:"mirror"`
	} `json:"allowed_rotations"`
}

type typeBin struct {
	typeShape
	Copies    *int `json:"copies"`
	CopiesMin int  `json:"copies_min"` // all bins are there; none has to be used
	Cost      float64
	Defects   []struct {
		typeShape
		Spacing float64 `json:"item_defect_minimum_spacing"`
	} `json:"defects"`
	Fixed []struct {
		Item   int     `json:"item_type_id"`
		Angle  float64 `json:"angle"`
		Mirror bool    `json:"mirror"`
		Corner struct {
			X float64 `json:"x"`
			Y float64 `json:"y"`
		} `json:"bl_corner"`
	} `json:"fixed_items"`
}

var objectives = map[string]nest.Kind{
	"opendimensionx": nest.Strip, "knapsack": nest.Knapsack, "feasibility": nest.Bins,
	"binpacking": nest.Bins, "binpackingwithleftovers": nest.Bins, "variablesizedbinpacking": nest.Bins,
}

// readTypes reads bin types and item types. Names that are not known are
// refused here too: they may be conditions.
func readTypes(data []byte) (File, error) {
	var in struct {
		Objective string     `json:"objective"`
		Bins      []typeBin  `json:"bin_types"`
		Items     []typeItem `json:"item_types"`
	}
	if err := decode(data, &in, true); err != nil {
		return File{}, err
	}
	kind, ok := objectives[strings.ToLower(strings.ReplaceAll(in.Objective, "-", ""))]
	if !ok {
		return File{}, wrong("objective", "%q is not read", in.Objective).WithHint("open-dimension-x, knapsack, feasibility or bin-packing")
	}
	f := File{Problem: nest.Problem{Kind: kind}}
	for i, it := range in.Items {
		p, err := it.piece(i)
		if err != nil {
			return f, fault.Within(err, fmt.Sprintf("item_types[%d]", i))
		}
		f.Problem.Pieces = append(f.Problem.Pieces, p)
	}
	for i, b := range in.Bins {
		if err := b.add(&f.Problem, i); err != nil {
			return f, fault.Within(err, fmt.Sprintf("bin_types[%d]", i))
		}
	}
	return f, nil
}

func (it typeItem) piece(i int) (p nest.Piece, err error) {
	p.ID, p.Count, p.Value, p.Mirror = fmt.Sprint(i), 1, it.Profit, it.Mirroring
	if it.Copies != nil {
		if p.Count = *it.Copies; p.Count < 1 {
			return p, wrong("copies", "%d: from 1", p.Count)
		}
	}
	turned := 0
	for k, r := range it.Rotations {
		if r.Mirror {
			turned++
		}
		switch {
		case r.Start == r.End:
			p.Rotations = append(p.Rotations, r.Start)
		case r.Start == 0 && r.End == 360 && len(it.Rotations) == 1:
			p.Free = true
		default:
			return p, wrong(fmt.Sprintf("allowed_rotations[%d]", k), "from %g to %g degrees: single angles, or 0 to 360 alone, are read", r.Start, r.End)
		}
	}
	if p.FaceDown = turned > 0; turned > 0 && (turned < len(it.Rotations) || p.Mirror) {
		return p, wrong("allowed_rotations", "some angles for the mirrored piece and some for the plain one are not read").WithHint("allow_mirroring holds for all angles")
	}
	p.Shape, err = it.polygon(true)
	return p, err
}

// add makes a container of the bin.
func (b typeBin) add(p *nest.Problem, i int) error {
	c := nest.Container{ID: fmt.Sprint(i), Count: 1, Cost: b.Cost}
	if b.Copies != nil {
		if c.Count = *b.Copies; c.Count < 1 {
			return wrong("copies", "%d: from 1", c.Count)
		}
	}
	outline, err := b.polygon(false)
	if err != nil {
		return err
	}
	c.Outline = outline
	if p.Kind == nest.Strip {
		box := outline.Bounds()
		if box.Min != (geom.Point{}) || math.Abs(geom.RingArea(outline.Outer)) != box.Width()*box.Height() || len(outline.Holes) > 0 {
			return wrong("", "a strip is a rectangle whose corner is at 0, 0")
		}
		c.Outline, c.Height = geom.Polygon{}, box.Height()
	}
	for k, d := range b.Defects {
		where := fmt.Sprintf("defects[%d]", k)
		if d.Spacing != 0 {
			if d.Type != "rectangle" || !(d.Spacing > 0) {
				return wrong(where, "a spacing of %g about a %s is not read: only about rectangles", d.Spacing, d.Type)
			}
			d.X, d.Y, d.Width, d.Height = d.X-d.Spacing, d.Y-d.Spacing, d.Width+2*d.Spacing, d.Height+2*d.Spacing
		}
		shape, err := d.polygon(true)
		if err != nil {
			return fault.Within(err, where)
		}
		c.KeepOut = append(c.KeepOut, shape)
	}
	p.Containers = append(p.Containers, c)
	for k, l := range b.Fixed {
		if l.Item < 0 || l.Item >= len(p.Pieces) {
			return wrong(fmt.Sprintf("fixed_items[%d]", k), "there is no item %d", l.Item)
		}
		piece := &p.Pieces[l.Item]
		at := nest.Placement{Piece: l.Item, Copy: len(piece.Locked), Container: i, Rotation: l.Angle, Mirrored: l.Mirror}
		corner := at.Lay(piece.Shape).Bounds().Min
		at.X, at.Y = l.Corner.X-corner.X, l.Corner.Y-corner.Y
		piece.Locked = append(piece.Locked, at)
	}
	return nil
}
