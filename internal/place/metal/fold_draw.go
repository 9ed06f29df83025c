package metal

import (
	"fmt"
	"math"
	"strings"

	"fettle/geom"
	"fettle/geom/outline"
	"fettle/geom/pdf"
	"fettle/internal/shapeout"
	"fettle/internal/web"
	stage "fettle/stage/metal"
)

// The layers of a sketch's file.
const (
	layerCut   = "CUT"
	layerFit   = "FITTED"
	layerUp    = "BEND_UP"
	layerDown  = "BEND_DOWN"
	layerGrain = "ROLLING"
)

var foldPens = map[string]pdf.Pen{layerCut: {Width: 0.5}, layerFit: {Width: 0.18, Dash: 5}, layerUp: {Width: 0.35}, layerDown: {Width: 0.35, Dash: 4}, layerGrain: {Width: 0.18}}

// stroke is a line of a drawing in its own units, y down.
type stroke struct{ X1, Y1, X2, Y2 float64 }

// word is a text of a drawing, its middle at a place.
type word struct {
	X, Y float64
	Text string
}

// sketch is a drawing to scale: what is filled, its lines and its words.
type sketch struct {
	Box         [4]float64 // x, y, width, height
	Size        float64    // of letters
	Fill        string     // path
	Lines       []stroke
	Ups, Downs  []stroke
	Words, Side []word // Side begin at their place
}

func (s sketch) viewBox() string {
	return fmt.Sprintf("%.1f %.1f %.1f %.1f", s.Box[0], s.Box[1], s.Box[2], s.Box[3])
}

func coordinate(v float64) string { return fmt.Sprintf("%.2f", v) }

// section draws the folded blank from its end: every flange with the line that
// measures it over the outside, every bend with its number.
func (page sketchPage) section() sketch {
	s := stage.SectionOf(page.Blank, page.Flat).Level()
	ring := s.Outline()
	box := geom.Polygon{Outer: ring}.Bounds()
	out := sketch{Size: max(box.Width(), box.Height()*1.4, 30) / 24, Fill: ringPath(ring)}
	gauge := page.Blank.Gauge.Mm()
	gap := gauge/2 + out.Size*0.9
	for i, f := range page.Blank.Profile.Flanges {
		run := s.Flanges[i]
		along := run.To.Sub(run.From)
		long := math.Hypot(along.X, along.Y)
		if long == 0 {
			continue
		}
		along = along.Scale(1 / long)
		from, to := run.From, run.To
		if i > 0 {
			from = from.Sub(along.Scale(page.Flat.Lines[i-1].Bend.Setback(page.Blank.Gauge)))
		}
		// Outside is the lower face of a bend up, the upper face of one down.
		near := page.Flat.Lines[min(i, len(page.Flat.Lines)-1)].Bend
		if i > 0 && (i == len(page.Flat.Lines) || near.Down != page.Flat.Lines[i-1].Bend.Down) {
			near = page.Flat.Lines[i-1].Bend
		}
		if i < len(page.Flat.Lines) {
			to = to.Add(along.Scale(page.Flat.Lines[i].Bend.Setback(page.Blank.Gauge)))
		}
		out1 := geom.Point{X: along.Y, Y: -along.X}
		if near.Down {
			out1 = out1.Scale(-1)
		}
		a, b := from.Add(out1.Scale(gap)), to.Add(out1.Scale(gap))
		tick := out1.Scale(out.Size * 0.4)
		out.line(a, b)
		out.line(a.Sub(tick), a.Add(tick))
		out.line(b.Sub(tick), b.Add(tick))
		at := a.Add(b).Scale(0.5).Add(out1.Scale(out.Size * 1.0))
		if math.Abs(out1.X) > 0.5 {
			at = at.Add(geom.Point{X: math.Copysign(out.Size*1.1, out1.X)})
		}
		out.say(at, fmt.Sprintf("%s %s", stage.Letter(i), mm(f.Length)))
	}
	for i := range page.Flat.Lines {
		out.say(out.numberAt(s, i, page.Flat.Lines[i].Bend.Angle > 135, gauge), fmt.Sprint(i+1))
	}
	pad := out.Size * 4.2
	out.Box = [4]float64{box.Min.X - pad, -box.Max.Y - pad, box.Width() + 2*pad, box.Height() + 2*pad}
	return out
}

// numberAt is where the number of a bend stands: inside it, or outside where a
// line runs there already or a hem leaves no room.
func (s *sketch) numberAt(sec stage.Section, i int, hem bool, gauge float64) geom.Point {
	mid := sec.Flanges[i].To.Add(sec.Flanges[i+1].From).Scale(0.5)
	along := func(k int) geom.Point {
		run := sec.Flanges[k].To.Sub(sec.Flanges[k].From)
		if long := math.Hypot(run.X, run.Y); long > 0 {
			return run.Scale(1 / long)
		}
		return geom.Point{}
	}
	way := along(i + 1).Sub(along(i))
	w := math.Hypot(way.X, way.Y)
	if w == 0 {
		return mid
	}
	inside, outside := mid.Add(way.Scale((gauge+s.Size)/w)), mid.Sub(way.Scale((gauge+s.Size)/w))
	if hem || s.taken(inside) {
		return outside
	}
	return inside
}

// taken tells whether a line runs through where a letter would stand.
func (s *sketch) taken(at geom.Point) bool {
	for _, l := range s.Lines {
		a, b := geom.Point{X: l.X1, Y: -l.Y1}, geom.Point{X: l.X2, Y: -l.Y2}
		if geom.SegmentDistance(at, at, a, b) < 0.6*s.Size {
			return true
		}
	}
	return false
}

// ringPath is a ring as SVG has it, y down, to the hundredth of a millimetre.
func ringPath(ring geom.Ring) string {
	var out strings.Builder
	for i, p := range ring {
		fmt.Fprintf(&out, "%c%.2f %.2f", "ML"[min(i, 1)], p.X, -p.Y)
	}
	return out.String() + "Z"
}

func (s *sketch) line(a, b geom.Point) { s.Lines = append(s.Lines, stroke{a.X, -a.Y, b.X, -b.Y}) }

func (s *sketch) say(at geom.Point, text string) { s.Words = append(s.Words, word{at.X, -at.Y, text}) }

// mostLong is how many times its flat size a blank is drawn long at most.
const mostLong = 1.6

// shortened tells whether the length of the bends is drawn shorter than it is.
func (page sketchPage) shortened() bool { return page.Blank.Width.Mm() > mostLong*page.Flat.Size }

// flat draws the sheet with its bend lines: up whole, down broken, each with
// where it lies from the edge of flange A. Across the bends it is to scale.
func (page sketchPage) flat() sketch {
	w, h := min(page.Blank.Width.Mm(), mostLong*page.Flat.Size), page.Flat.Size
	out := sketch{Size: max(w, 0.8*h) * 0.041}
	out.Fill = ringPath(geom.Ring{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}})
	// Words beside the lines keep their distance from each other.
	at := 0.0
	side := func(y float64, text string) {
		at = max(y, at+1.35*out.Size)
		out.Lines = append(out.Lines, stroke{w, -y, w + 1.2*out.Size, -at})
		out.Side = append(out.Side, word{w + 1.5*out.Size, -at, text})
	}
	side(0, "0, edge of flange A")
	for i, l := range page.Flat.Lines {
		one := stroke{0, -l.Middle, w, -l.Middle}
		if l.Bend.Down {
			out.Downs = append(out.Downs, one)
		} else {
			out.Ups = append(out.Ups, one)
		}
		side(l.Middle, fmt.Sprintf("%.1f, bend %d %s %g°, R %s", l.Middle, i+1, wayOf(l.Bend), l.Bend.Angle, mm(l.Bend.Radius)))
	}
	side(h, fmt.Sprintf("%.1f, edge of flange %s", h, stage.Letter(len(page.Flat.Lines))))
	for i := range page.Blank.Profile.Flanges {
		low, high := 0.0, h
		if i > 0 {
			low = page.Flat.Lines[i-1].Middle
		}
		if i < len(page.Flat.Lines) {
			high = page.Flat.Lines[i].Middle
		}
		out.Words = append(out.Words, word{out.Size, -(low + high) / 2, stage.Letter(i)})
	}
	// The rolling direction, square to the bends.
	x := w * 0.55
	out.Lines = append(out.Lines, stroke{x, -h * 0.2, x, -h * 0.8}, stroke{x, -h * 0.8, x - out.Size/2, -h*0.8 + out.Size}, stroke{x, -h * 0.8, x + out.Size/2, -h*0.8 + out.Size})
	out.Words = append(out.Words, word{w / 2, 2 * out.Size, mm(page.Blank.Width) + " mm along the bends"})
	top := max(h, at)
	out.Box = [4]float64{-out.Size, -top - 1.5*out.Size, w + 19*out.Size, top + 5*out.Size}
	return out
}

// foldPlan is the flat blank at true size.
func (page sketchPage) foldPlan() outline.Plan {
	w, h, o := page.Blank.Width.Mm(), page.Flat.Size, page.Blank.Over.Mm()
	box := func(by float64) geom.Polygon {
		return geom.Polygon{Outer: []geom.Point{{X: -by, Y: -by}, {X: w + by, Y: -by}, {X: w + by, Y: h + by}, {X: -by, Y: h + by}}}
	}
	plan := outline.Plan{Outlines: shapeout.Closed(layerCut, box(o))}
	if o > 0 {
		plan.Outlines = append(plan.Outlines, shapeout.Closed(layerFit, box(0))...)
	}
	high := min(3.5, h/20)
	for i, l := range page.Flat.Lines {
		layer := layerUp
		if l.Bend.Down {
			layer = layerDown
		}
		plan.Outlines = append(plan.Outlines, outline.Outline{Layer: layer, Points: []geom.Point{{X: 0, Y: l.Middle}, {X: w, Y: l.Middle}}})
		text := fmt.Sprintf("%d %s %g° R%s at %.1f", i+1, strings.ToUpper(wayOf(l.Bend)), l.Bend.Angle, mm(l.Bend.Radius), l.Middle)
		plan.Labels = append(plan.Labels, outline.Label{Layer: layer, Text: text, At: geom.Point{X: w * 0.3, Y: l.Middle + high}, Height: high})
	}
	x, tip := w*0.7, h*0.8
	plan.Outlines = append(plan.Outlines, outline.Outline{Layer: layerGrain, Points: []geom.Point{{X: x, Y: h * 0.2}, {X: x, Y: tip}}},
		outline.Outline{Layer: layerGrain, Points: []geom.Point{{X: x - 3, Y: tip - 6}, {X: x, Y: tip}, {X: x + 3, Y: tip - 6}}})
	plan.Labels = append(plan.Labels, outline.Label{Layer: layerGrain, Text: fmt.Sprintf("%s %g mm, rolling", page.Blank.ID, page.Blank.Gauge.Mm()), At: geom.Point{X: x, Y: h * 0.12}, Height: high})
	return plan
}

// foldFile answers with the flat blank at true size, on paper or as a drawing.
func (p place) foldFile(r *web.Request) error {
	page, err := p.sketchOf(r)
	if err != nil {
		return err
	}
	title := fmt.Sprintf("%s, blank %s: %s, %d to cut of %g mm", page.Build.Title, page.Blank.ID, page.Blank.Name, page.Blank.Left(), page.Blank.Gauge.Mm())
	return shapeout.Drawing(r, r.Build()+"-fold-"+string(page.Blank.ID), title, page.foldPlan(), foldPens)
}
