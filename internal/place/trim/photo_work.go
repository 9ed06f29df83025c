package trim

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/figure"
	"fettle/geom"
	"fettle/geom/lens"
	"fettle/unit"
)

// largeOff is from where an error of the outline, in mm, costs so much margin
// that a better photo pays.
const largeOff = 15

// mostOff is the error of an outline, in mm, at which it is no longer one.
const mostOff = 100

// misfit is a fault with the field that it belongs to.
type misfit struct {
	Field string
	Err   error
}

func (m misfit) Error() string { return m.Err.Error() }

func (m misfit) Unwrap() error { return m.Err }

// says is the fault with what would help.
func (m misfit) says() string {
	text := m.Err.Error()
	if rest, named := strings.CutPrefix(text, m.Field); named { // the page names the field before it
		text = strings.TrimLeft(rest, " ,:")
	}
	if f, ok := errors.AsType[*fault.Fault](m.Err); ok && f.Hint != "" {
		text += ". " + f.Hint
	}
	return text
}

// worked is what a traced photo comes to in mm.
type worked struct {
	view    *lens.View
	Trace   lens.Trace
	Off     unit.Length // the line may be off by so much, in whole mm, rounded up
	Bulge   string      // where the line may bulge between its points; may be empty
	Checks  []workedCheck
	Changes []build.Change
	drawing *build.Hide
	line    *drawnLine // of a pattern, squared up where that was asked for
	squared *squared   // what squaring it up would move
}

// workedCheck is a distance by the tape and by the photo, in mm.
type workedCheck struct{ Tape, Photo, Off float64 }

// Agrees tells whether tape and photo are as near as both may be off.
func (c workedCheck) Agrees() bool { return math.Abs(c.Tape-c.Photo) <= c.Off+2 }

// frame takes places of a photo to the hide's own drawing: face up, its lower
// left corner at the origin.
type frame struct {
	view *lens.View
	low  geom.Point
	back bool
}

func (f frame) at(p geom.Point) (geom.Point, error) {
	at, err := f.view.At(p)
	if err != nil {
		return geom.Point{}, err
	}
	q := at.Point
	if f.back {
		q.X = -q.X
	}
	return q.Sub(f.low), nil
}

func (f frame) ring(list []geom.Point) ([]geom.Point, error) {
	out := make([]geom.Point, len(list))
	for i, p := range list {
		q, err := f.at(p)
		if err != nil {
			return nil, fault.Within(err, fmt.Sprintf("point %d", i+1))
		}
		out[i] = q
	}
	return out, nil
}

// work makes millimetres of what is traced, and the changes that would follow.
// A fault is a misfit of one of its fields.
func (t traced) work(h build.Hide, photo build.PhotoHash) (worked, error) {
	w, err := t.measure()
	if err != nil {
		return w, err
	}
	return w, w.draw(t, h, photo)
}

// measure makes millimetres of what is traced.
func (t traced) measure() (worked, error) {
	v, err := lens.Fit(t.Scene)
	if err != nil {
		name := "reference"
		if f, ok := errors.AsType[*fault.Fault](err); ok && strings.HasPrefix(f.Where, "straight line") {
			name = "straight"
		}
		return worked{}, misfit{name, err}
	}
	w := worked{view: v}
	for _, c := range t.Checks {
		mm, off, err := v.Between(c.From, c.To)
		if err != nil {
			return w, misfit{"checks", err}
		}
		w.Checks = append(w.Checks, workedCheck{c.Mm, mm, off})
	}
	if w.Trace, err = v.Trace(t.Outline); err != nil {
		return w, misfit{"outline", err}
	}
	if err := w.Trace.Trust(mostOff); err != nil {
		return w, misfit{"outline", err}
	}
	w.Off = unit.Length(math.Ceil(w.Trace.Error)) * unit.Millimetre
	return w, nil
}

// draw makes the changes: the hide drawn, and its marks.
func (w *worked) draw(t traced, h build.Hide, photo build.PhotoHash) error {
	f := frame{view: w.view, back: t.Back}
	ring, err := f.ring(t.Outline)
	if err != nil {
		return misfit{"outline", err}
	}
	f.low = geom.Polygon{Outer: ring}.Bounds().Min
	for i := range ring {
		ring[i] = ring[i].Sub(f.low)
	}
	w.Bulge = bulge(ring)
	c := &build.DrawHide{Hide: h.ID, Outline: build.ShapeOf(geom.Polygon{Outer: ring}), OutlineError: w.Off, Photo: photo}
	if c.Zones, err = f.zones(t.Zones); err != nil {
		return misfit{"zones", err}
	}
	if c.Headings, err = f.headings(t.Stretch); err != nil {
		return misfit{"stretch", err}
	}
	w.Changes = append(w.Changes, c)
	next := h
	if t.Renew {
		for _, m := range h.Marks {
			w.Changes = append(w.Changes, &build.ClearMark{Hide: h.ID, Mark: m.ID})
		}
		if len(h.KeepOuts) > 0 {
			w.Changes = append(w.Changes, &build.KeepOut{Hide: h.ID})
		}
		next.Marks, next.KeepOuts = nil, nil
	}
	for i, m := range t.Faults {
		mark, err := f.mark(m)
		if err != nil {
			return misfit{"faults", fault.Within(err, fmt.Sprintf("mark %d", i+1))}
		}
		mark.ID = nextMark(&next)
		next.Marks = append(next.Marks[:len(next.Marks):len(next.Marks)], mark)
		w.Changes = append(w.Changes, &build.MarkHide{Hide: h.ID, Mark: mark})
	}
	next.Outline, next.OutlineError, next.Zones, next.Headings = c.Outline, c.OutlineError, c.Zones, c.Headings
	w.drawing = &next
	return nil
}

func (f frame) mark(m tracedFault) (build.Mark, error) {
	ring, err := f.ring(m.At)
	if err != nil {
		return build.Mark{}, err
	}
	if len(ring) == 2 {
		ring = disc(ring[0], ring[1])
	}
	return build.Mark{Kind: m.Kind, Grade: m.Grade, Shape: build.ShapeOf(geom.Polygon{Outer: ring})}, nil
}

func (f frame) zones(list []build.HideZone) ([]build.HideZone, error) {
	var out []build.HideZone
	for i, z := range list {
		ring, err := f.ring(z.Shape.Polygon().Outer)
		if err != nil {
			return nil, fault.Within(err, fmt.Sprintf("zone %d", i+1))
		}
		z.Shape = build.ShapeOf(geom.Polygon{Outer: ring})
		out = append(out, z)
	}
	return out, nil
}

func (f frame) headings(list [][]geom.Point) ([]build.Heading, error) {
	var out []build.Heading
	for i, a := range list {
		ends, err := f.ring(a)
		if err != nil {
			return nil, fault.Within(err, fmt.Sprintf("arrow %d", i+1))
		}
		way := ends[1].Sub(ends[0])
		angle := math.Round(math.Atan2(way.Y, way.X)*1800/math.Pi) / 10
		at := build.ShapeOf(geom.Polygon{Outer: []geom.Point{ends[0].Add(way.Scale(0.5))}}).Outer[0]
		out = append(out, build.Heading{At: at, Angle: angle})
	}
	return out, nil
}

// bulge says where a bent edge is taken for a straight one by most: the height
// of the circle through three points that follow each other. Corners are no
// bends.
func bulge(ring []geom.Point) string {
	const corner, worth = 0.8, 6 // sine of half the turn; mm
	most, at := float64(worth), -1
	n := len(ring)
	for i, p := range ring {
		before, after := ring[(i+n-1)%n], ring[(i+1)%n]
		across := before.Distance(after)
		a, b := p.Distance(before), p.Distance(after)
		sine := math.Abs(p.Sub(before).Cross(after.Sub(p))) / max(a*b, 1e-9)
		if sine > corner || across < max(a, b) {
			continue
		}
		if high := sine / across * max(a, b) * max(a, b) / 4; high > most {
			most, at = high, i
			if a > b {
				at = (i + n - 1) % n
			}
		}
	}
	if at < 0 {
		return ""
	}
	return fmt.Sprintf("Between points %d and %d the edge may bulge %.0f mm beside the line: put a point there.", at+1, (at+1)%n+1, most)
}

// beside doubts an area that the tannery saw otherwise: its machine is off by a
// few in a hundred at most. It is empty where both agree.
func (w worked) beside(h build.Hide) string {
	const few = 0.05
	share := w.Trace.Area/1e6/h.Area.M2() - 1
	if math.Abs(share) <= few+w.Trace.Off/w.Trace.Area {
		return ""
	}
	than := "less"
	if share > 0 {
		than = "more"
	}
	return fmt.Sprintf("This is %.0f %% %s than the %s that the tannery stamped. Is it this hide, and are the sizes of the reference right?", 100*math.Abs(share), than, h.Area)
}

// area is what the outline holds, with its working.
func (w worked) area(t traced, h build.Hide) figure.Figure {
	k1, k2 := w.view.Bend()
	bend, bent := "no straight line is marked: judged from what lenses do", figure.TradeDefault
	if n := len(t.Scene.Lines); n > 0 {
		bend, bent = fmt.Sprintf("from %d straight lines", n), figure.Measured
	}
	noise, spare := w.view.Noise()
	m2 := w.Trace.Area / 1e6
	tap, from := fmt.Sprintf("from %.0f measurements to spare; what is judged counts for 4", spare), figure.Measured
	if spare < 0.5 {
		tap, from = "judged: there is nothing to spare that would tell", figure.TradeDefault
	}
	f := figure.Figure{Name: "area of hide " + string(h.ID), Text: fmt.Sprintf("%.2f ± %.2f m²", m2, w.Trace.Off/1e6), Formula: "what the traced line holds, each point taken from the photo to the table",
		Inputs: []figure.Input{
			{Name: "points of the outline", Value: fmt.Sprint(len(t.Outline)), Source: figure.Measured},
			{Name: "a tap is off by", Value: fmt.Sprintf("%.1f pixels", noise), Source: from, Note: tap},
			{Name: "the size of the reference may be off by", Value: fmt.Sprintf("%.4g mm", 2*t.Scene.Tape), Source: figure.Measured},
			{Name: "bend of the lens", Value: fmt.Sprintf("%+.3f, %+.3f", k1, k2), Source: bent, Note: bend},
		}}
	f.With = fmt.Sprintf("%.3f m², within %.3f m² in 95 of 100 photos; %s by the tannery: %+.1f %%", m2, w.Trace.Off/1e6, h.Area, 100*(m2/h.Area.M2()-1))
	return f
}
