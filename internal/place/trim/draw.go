package trim

import (
	"fmt"
	"math"
	"strings"

	"fettle/build"
	"fettle/geom"
	stage "fettle/stage/trim"
)

// drawing is a hide or a roll with what lies on it, face up, in mm.
type drawing struct {
	ID      string // unique on the page
	Name    string
	Outline geom.Polygon
	Zones   []editZone
	Outs    []geom.Polygon
	Marks   []drawnMark
	Heads   []editHeading
	Pieces  []drawnPiece
	Pattern [][]geom.Point // lines where the pattern of a roll comes again
	Left    *stage.Remnant // what is left in one piece; may be nil
	Named   bool           // the names of pieces are written in
}

type drawnMark struct {
	ID, Says string
	Shape    geom.Polygon
	Quality  int
}

type drawnPiece struct {
	Name   string
	Words  string // a line below the name, such as the order of cutting
	Shape  geom.Polygon
	Grain  string // the path of its arrow; may be empty
	Locked bool
	Wrong  bool
	Anchor []geom.Point // what keeps to the pattern of the roll; none where nothing does
	half   float64      // of the arrow
	angle  float64
}

// drawHide draws a hide with the copies that a layout has on it. Wrong ones are
// hatched.
func drawHide(h build.Hide, cuts []stage.Cut, l *build.Layout, wrong []stage.Fault) drawing {
	d := drawing{ID: string(h.ID), Name: "hide " + string(h.ID), Outline: h.Outline.Polygon()}
	for _, z := range h.Zones {
		d.Zones = append(d.Zones, editZone{Shape: z.Shape.Polygon(), Quality: stage.Quality(z.Grade), Label: z.Part + " " + z.Grade})
	}
	for _, k := range h.KeepOuts {
		d.Outs = append(d.Outs, k.Polygon())
	}
	for _, m := range h.Marks {
		d.Marks = append(d.Marks, drawnMark{m.ID, m.Kind + ": " + m.Takes(), m.Shape.Polygon(), stage.Takes(m)})
	}
	for _, a := range h.Headings {
		d.Heads = append(d.Heads, editHeading{At: geom.Point{X: a.At[0].Mm(), Y: a.At[1].Mm()}, Angle: a.Angle})
	}
	if l == nil {
		return d
	}
	for _, at := range l.Placed {
		if c := stage.CutOf(cuts, at.Piece, at.Copy); c != nil && at.Hide == h.ID {
			d.Pieces = append(d.Pieces, drawPiece(*c, at, wrong))
		}
	}
	return d
}

// drawRoll is a roll with what lies on it, as far as that reaches, along x.
func drawRoll(r build.Roll, cuts []stage.Cut, placed []build.Placed, wrong []stage.Fault) drawing {
	d := drawing{ID: string(r.ID), Name: r.Material, Named: true}
	end := r.Width.Mm() / 4
	for _, at := range placed {
		if c := stage.CutOf(cuts, at.Piece, at.Copy); c != nil {
			one := drawPiece(*c, at, wrong)
			one.grain(r.Nap)
			if a, ok := c.AnchorAt(at); ok && (r.Repeat > 0 || r.Across > 0) {
				one.Anchor = []geom.Point{a}
			}
			end = max(end, one.Shape.Bounds().Max.X+r.Edge.Mm())
			d.Pieces = append(d.Pieces, one)
		}
	}
	d.Outline = geom.Polygon{Outer: []geom.Point{{}, {X: end}, {X: end, Y: r.Width.Mm()}, {Y: r.Width.Mm()}}}
	d.Pattern = patternOf(r, end)
	return d
}

// mostLines is up to how many lines of a pattern are drawn.
const mostLines = 200

// patternOf draws where the pattern of a roll comes again, along and across.
func patternOf(r build.Roll, end float64) [][]geom.Point {
	var lines [][]geom.Point
	wide := r.Width.Mm()
	if step := r.Repeat.Mm(); step > 0 && end/step < mostLines {
		for x := math.Mod(r.Begins[0].Mm(), step); x < end; x += step {
			lines = append(lines, []geom.Point{{X: x}, {X: x, Y: wide}})
		}
	}
	if step := r.Across.Mm(); step > 0 && wide/step < mostLines {
		for y := math.Mod(r.Begins[1].Mm(), step); y < wide; y += step {
			lines = append(lines, []geom.Point{{Y: y}, {X: end, Y: y}})
		}
	}
	return lines
}

// anchorArm is half as long as the cross on what keeps to a pattern, mm.
const anchorArm = 18

// crossAt are the two strokes of a cross.
func crossAt(q geom.Point) [2][]geom.Point {
	d, e := geom.Point{X: anchorArm, Y: anchorArm}, geom.Point{X: anchorArm, Y: -anchorArm}
	return [2][]geom.Point{{q.Sub(d), q.Add(d)}, {q.Sub(e), q.Add(e)}}
}

// leftAt is where the words of what is left stand.
func (d drawing) leftAt() (x, y float64) { return middle(geom.Polygon{Outer: d.Left.Corners[:]}) }

func linePath(line []geom.Point) string { return strings.TrimSuffix(ringPath(line), "Z") }

func drawPiece(c stage.Cut, at build.Placed, wrong []stage.Fault) drawnPiece {
	p := drawnPiece{Name: c.Name(at.Copy), Shape: c.Lies(at), Locked: at.Locked}
	for _, f := range wrong {
		p.Wrong = p.Wrong || f.Piece == at.Piece && f.Copy == at.Copy
	}
	if a := c.Axis(); a.Known() {
		box := c.Shape.Bounds()
		p.half, p.angle = min(box.Width(), box.Height())*0.42, a.Angle+at.Rotation
		p.grain(false)
	}
	return p
}

// grain draws the arrow of the piece's tight direction, with one head for nap.
func (p *drawnPiece) grain(nap bool) {
	if p.half > 0 {
		x, y := middle(p.Shape)
		p.Grain = arrow(x, y, p.angle, p.half, nap)
	}
}

func (d drawing) viewBox() string { return editSheet{Outline: d.Outline}.viewBox() }

// textSize is one that is read where the drawing is as wide as half a tablet
// or, where pieces are named, the whole of it.
func (d drawing) textSize() string {
	share := 30.0
	if d.Named {
		share = 44
	}
	return fmt.Sprintf("%.0f", max(d.Outline.Bounds().Width()/share, 12))
}

func (m drawnMark) class() string { return fmt.Sprintf("trim-mark trim-mark-%d", m.Quality) }

// beside is where a mark's name stands: just above it.
func (m drawnMark) beside() (x, y float64) {
	b := m.Shape.Bounds()
	return (b.Min.X + b.Max.X) / 2, -b.Max.Y - 12
}

// alone is a piece by itself, as its own drawing has it.
func alone(p build.Piece) drawing {
	c := stage.Cut{ID: string(p.ID), Piece: p, Copies: []int{0}, Shape: p.Cut().Polygon()}
	return drawing{ID: string(p.ID), Name: p.Name, Outline: c.Shape, Pieces: []drawnPiece{drawPiece(c, build.Placed{}, nil)}}
}
