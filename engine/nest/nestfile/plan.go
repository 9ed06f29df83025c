package nestfile

import (
	"fmt"

	"fettle/engine/nest"
	"fettle/geom"
	"fettle/geom/outline"
)

// Layers of a plan.
const (
	LayerOutline = "outline" // of the material, with its holes
	LayerPieces  = "pieces"
	LayerMarks   = "marks"  // zones and keep-outs
	LayerLabels  = "labels" // names of pieces
)

// SheetPlan is one sheet with what is cut from it, in millimetres, in the
// place where the sheet itself has it.
type SheetPlan struct {
	Name string // of the material, and which of several
	outline.Plan
}

// Plans returns the sheets that a layout uses as drawings to cut by. length is
// that of a strip. A file without a unit is a fault of kind Invalid.
func Plans(f File, placements []nest.Placement, length float64) ([]SheetPlan, error) {
	mm, err := f.Millimetres()
	if err != nil {
		return nil, err
	}
	sheets, err := sheetsOf(f.Problem, placements, length)
	if err != nil {
		return nil, err
	}
	var plans []SheetPlan
	for _, s := range sheets {
		p := SheetPlan{Name: s.name}
		p.add(LayerOutline, s.outline, mm)
		for _, z := range s.material.Zones {
			p.add(LayerMarks, z.Shape, mm)
		}
		for _, k := range s.material.KeepOut {
			p.add(LayerMarks, k, mm)
		}
		for _, at := range s.on {
			piece := f.Problem.Pieces[at.Piece]
			shape := p.add(LayerPieces, at.Lay(piece.Shape), mm)
			p.name(piece, at, shape)
		}
		plans = append(plans, p)
	}
	return plans, nil
}

// add draws a shape in millimetres, and returns it.
func (p *SheetPlan) add(layer string, shape geom.Polygon, mm float64) (scaled geom.Polygon) {
	for k, r := range shape.Rings() {
		points := make([]geom.Point, len(r))
		for i, q := range r {
			points[i] = q.Scale(mm)
		}
		p.Outlines = append(p.Outlines, outline.Outline{Layer: layer, Closed: true, Points: points})
		if k == 0 {
			scaled.Outer = points
		} else {
			scaled.Holes = append(scaled.Holes, points)
		}
	}
	return scaled
}

// name puts the name of a copy where its shape is widest.
func (p *SheetPlan) name(piece nest.Piece, at nest.Placement, shape geom.Polygon) {
	text := piece.ID
	if piece.Count > 1 {
		text = fmt.Sprintf("%s %d/%d", piece.ID, at.Copy+1, piece.Count)
	}
	spot := deepest(shape)
	height := min(max(shape.Depth(spot)/3, 1.5), 10)
	p.Labels = append(p.Labels, outline.Label{Layer: LayerLabels, Text: text, At: spot, Height: height})
}

// Abreast puts sheets side by side into one drawing, each with its name below.
func Abreast(plans []SheetPlan) (all outline.Plan) {
	const gap = 100 // mm
	x := 0.0
	for _, p := range plans {
		b := boxOf(p.Outlines)
		by := geom.Point{X: x - b.Min.X, Y: -b.Min.Y}
		for _, o := range p.Outlines {
			points := make([]geom.Point, len(o.Points))
			for i, q := range o.Points {
				points[i] = q.Add(by)
			}
			o.Points = points
			all.Outlines = append(all.Outlines, o)
		}
		for _, l := range p.Labels {
			l.At = l.At.Add(by)
			all.Labels = append(all.Labels, l)
		}
		all.Labels = append(all.Labels, outline.Label{Layer: LayerLabels, Text: p.Name, At: geom.Point{X: x + b.Width()/2, Y: -gap / 4}, Height: gap / 10})
		x += b.Width() + gap
	}
	return all
}

func boxOf(list []outline.Outline) (box geom.Box) {
	for i, o := range list {
		b := geom.Polygon{Outer: o.Points}.Bounds()
		if i == 0 {
			box = b
		}
		box = box.Union(b)
	}
	return box
}
