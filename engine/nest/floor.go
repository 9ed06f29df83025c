package nest

import (
	"fmt"
	"math"
	"slices"

	"fettle/geom"
)

// terrain is what the copies of a layout lie on beyond its bounds. loss judges
// how far a turned copy of a piece, at a place, reaches where it must not: 0 if
// it does not. It may give up once it passes enough.
type terrain interface {
	loss(piece int, t *turn, x, y, enough float64) float64
	// heading says which way the material runs at a place.
	heading(x, y float64) float64
}

// floor is a hide or a sheet as the search sees it. What a piece that reaches
// too far costs is twice the loss of two pieces, with the circles of the one only:
//
//	2 √(α + ε²) · λ,   α = π Σ d' r,   d = r + margin − depth
//
// where depth is how far the middle of a circle lies from the nearest hazard,
// less than 0 on the wrong side, from a grid. Whether it reaches too far at all
// is asked of the edges. Parts of a piece that ask for another quality answer
// for themselves in the same way, without a margin.
type floor struct {
	*shop
	margin  float64
	whole   []*hazards   // by piece: where no part of it may lie; nil for nowhere
	parts   [][]*hazards // by piece and part: where that part may not lie beside
	grain   []Heading
	outline geom.Box // empty for a strip
}

// newFloor prepares a container for all pieces of a shop. Pieces of one demand
// share their hazards.
func newFloor(s *shop, container int) *floor {
	c := &s.problem.Containers[container]
	f := &floor{shop: s, margin: c.Margin, grain: c.Grain, outline: c.Outline.Bounds()}
	known := map[string]*hazards{}
	find := func(d demand) *hazards {
		key := d.key()
		if _, ok := known[key]; !ok {
			known[key] = hazardsOf(c, d)
		}
		return known[key]
	}
	for i := range s.problem.Pieces {
		p := &s.problem.Pieces[i]
		all := demand{outer: true, margin: c.Margin, barred: make([]bool, len(c.Zones))}
		for k, z := range c.Zones {
			all.barred[k] = !mayLie(p.Quality, z.Quality) && !slices.ContainsFunc(p.Zones, func(o Zone) bool { return mayLie(o.Quality, z.Quality) })
		}
		f.whole = append(f.whole, find(all))
		var parts []*hazards
		for _, quality := range s.forms[i].asks {
			d := demand{barred: make([]bool, len(c.Zones))}
			for k, z := range c.Zones {
				d.barred[k] = !all.barred[k] && !mayLie(quality, z.Quality)
			}
			parts = append(parts, find(d))
		}
		f.parts = append(f.parts, parts)
	}
	return f
}

// flaws returns what bars pieces from parts of a strip; nil where nothing does.
func (s *shop) flaws() terrain {
	f := newFloor(s, 0)
	for i, h := range f.whole {
		if h != nil || s.problem.Pieces[i].Axis != nil || slices.ContainsFunc(f.parts[i], func(h *hazards) bool { return h != nil }) {
			return f
		}
	}
	return nil
}

// flawed is how far right anything bars a piece.
func (l *layout) flawed() float64 {
	f, ok := l.floor.(*floor)
	if !ok {
		return 0
	}
	x := 0.0
	for i := range f.whole {
		for _, h := range append(slices.Clone(f.parts[i]), f.whole[i]) {
			if h == nil {
				continue
			}
			for _, r := range h.rings {
				x = max(x, r.Bounds().Max.X+h.margin)
			}
		}
	}
	return x
}

// demand is what a piece, or a part of one, must keep clear of.
type demand struct {
	outer  bool   // outline, holes and keep-outs
	barred []bool // zones
	margin float64
}

func (d *demand) key() string { return fmt.Sprint(d.outer, d.barred) }

// plain says whether a container is a level rectangle on which nothing bars
// any piece and no direction matters.
func (f *floor) plain(c *Container) bool {
	b := c.Outline.Bounds()
	plain := len(c.Outline.Outer) == 4 && len(c.Outline.Holes)+len(c.KeepOut)+len(c.Zones) == 0 && c.Outline.Area() == b.Width()*b.Height()
	for i := range f.problem.Pieces {
		plain = plain && f.problem.Pieces[i].Axis == nil
	}
	return plain
}

// bounds is where the boxes of pieces may lie at all.
func (f *floor) bounds() geom.Box {
	b, in := f.outline, f.margin-f.gap/2
	return geom.Box{Min: geom.Point{X: b.Min.X + in, Y: b.Min.Y + in}, Max: geom.Point{X: b.Max.X - in, Y: b.Max.Y - in}}
}

// loss is explained at floor. A tight direction that strays counts as well.
func (f *floor) loss(piece int, t *turn, x, y, enough float64) float64 {
	form := &f.forms[piece]
	sum := f.stray(piece, t, x, y)
	if h := f.whole[piece]; h != nil && sum <= enough {
		sum += h.loss(form, t, x, y, f.gap/2, enough-sum)
	}
	for k, h := range f.parts[piece] {
		if h != nil && sum <= enough {
			sum += h.loss(form, &t.parts[k], x, y, 0, enough-sum)
		}
	}
	return sum
}

// strayLoss is what a tight direction costs that strays, by degree and size,
// and strayLeast what it costs at least.
const (
	strayLoss  = 0.05
	strayLeast = 0.5
	strayHair  = 1e-10 // degrees that are none
)

// heading says which way the material runs at a place.
func (f *floor) heading(x, y float64) float64 {
	heading, best := 0.0, math.Inf(1)
	for i := range f.grain {
		h := &f.grain[i]
		dx, dy := h.At.X-x, h.At.Y-y
		if d := float64(dx*dx) + float64(dy*dy); d < best {
			heading, best = h.Angle, d
		}
	}
	return heading
}

// off is by how much the tight direction of a piece strays from a heading, to
// the left.
func (a *Axis) off(heading, rotation float64, mirrored bool) float64 {
	lies, full := a.Angle, 180.0
	if mirrored {
		lies = 180 - lies
	}
	if a.OneWay {
		full = 360
	}
	return math.Remainder(lies+rotation-heading, full)
}

// stray is 0 where the tight direction of a piece lies as it must, judged as
// the checker does, and grows with how far it is off.
func (f *floor) stray(piece int, t *turn, x, y float64) float64 {
	axis := f.problem.Pieces[piece].Axis
	if axis == nil {
		return 0
	}
	off := math.Abs(axis.off(f.heading(t.centre.X+x, t.centre.Y+y), t.rotation, t.mirrored)) - axis.Tolerance
	if off <= strayHair {
		return 0
	}
	return (strayLeast + float64(off*strayLoss)) * f.forms[piece].hull / 10
}
