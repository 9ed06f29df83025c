package nest

import (
	"math"

	"fettle/geom"
)

// terrain is what the copies of a layout lie on beyond its bounds. loss judges
// how far a turned copy of a piece, at a place, reaches where it must not: 0 if
// it does not. It may give up once it passes enough.
type terrain interface {
	loss(piece int, t *turn, x, y, enough float64) float64
}

// floor is a hide or a sheet as the search sees it. What a piece that reaches
// too far costs is the loss of two pieces with the circles of the one only:
//
//	√(α + ε²) · λ,   α = π Σ d' r,   d = r + margin − depth
//
// where depth is how far the middle of a circle lies from the nearest hazard,
// less than 0 on the wrong side, from a grid. Whether it reaches too far at all
// is asked of the edges.
type floor struct {
	*shop
	margin  float64
	hazards []*hazards // by piece
	grain   []Heading
}

// newFloor prepares a container for all pieces of a shop. Pieces of one demand
// share their hazards.
func newFloor(s *shop, container int) *floor {
	c := &s.problem.Containers[container]
	f := &floor{shop: s, margin: c.Margin, grain: c.Grain}
	known := map[string]*hazards{}
	for i := range s.problem.Pieces {
		quality := strictest(&s.problem.Pieces[i])
		key := demandOf(c, quality)
		if known[key] == nil {
			known[key] = hazardsOf(c, quality)
		}
		f.hazards = append(f.hazards, known[key])
	}
	return f
}

// strictest is the quality that the most demanding part of a piece asks for:
// the search holds all of the piece to it.
func strictest(p *Piece) int {
	quality := p.Quality
	for _, z := range p.Zones {
		if quality != 0 && (z.Quality == 0 || z.Quality > quality) {
			quality = z.Quality
		}
	}
	return quality
}

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

// demandOf tells zones that a quality may lie on from those it may not.
func demandOf(c *Container, quality int) string {
	key := make([]byte, len(c.Zones))
	for i, z := range c.Zones {
		if key[i] = '-'; mayLie(quality, z.Quality) {
			key[i] = '+'
		}
	}
	return string(key)
}

// bounds is where the boxes of pieces may lie at all.
func (f *floor) bounds() geom.Box {
	b := f.hazards[0].rings[0].Bounds()
	in := f.margin - f.gap/2
	return geom.Box{Min: geom.Point{X: b.Min.X + in, Y: b.Min.Y + in}, Max: geom.Point{X: b.Max.X - in, Y: b.Max.Y - in}}
}

// loss is explained at floor. A tight direction that strays counts as well.
func (f *floor) loss(piece int, t *turn, x, y, enough float64) float64 {
	form := &f.forms[piece]
	lambda := form.reach * form.reach
	stray := f.stray(piece, t, x, y) * lambda
	h := f.hazards[piece]
	g := &h.depth
	mx, my := (t.box.Min.X+t.box.Max.X)/2+x, (t.box.Min.Y+t.box.Max.Y)/2+y
	half := math.Hypot(t.box.Width(), t.box.Height()) / 2
	if g.depth(mx, my)-g.cell > half+f.margin {
		return stray
	}
	eps := lossFineness * form.diameter
	least := eps / (2 + lossTail)
	sum, deep := 0.0, false
	for i, r := range t.pr {
		d := r - f.gap/2 + f.margin - g.depth(t.px[i]+x, t.py[i]+y)
		if d <= -lossTail*eps {
			continue
		}
		deep = deep || d > g.cell
		if d < eps {
			d = eps * eps / (2*eps - d)
		}
		sum += float64((d - least) * r)
	}
	if !deep && !h.reached(t, x, y, f.margin) {
		return stray
	}
	return stray + float64(math.Sqrt(float64(math.Pi*sum)+float64(eps*eps))*lambda)
}

// strayLoss is what a tight direction costs that strays, in λ times degrees,
// and strayLeast what it costs at least.
const (
	strayLoss  = 0.05
	strayLeast = 0.5
)

// stray is 0 where the tight direction of a piece lies as it must, judged as
// the checker does, and grows with how far it is off.
func (f *floor) stray(piece int, t *turn, x, y float64) float64 {
	axis := f.problem.Pieces[piece].Axis
	if axis == nil {
		return 0
	}
	heading, best := 0.0, math.Inf(1)
	centre := geom.Point{X: t.centre.X + x, Y: t.centre.Y + y}
	for _, h := range f.grain {
		if d := h.At.Distance(centre); d < best {
			heading, best = h.Angle, d
		}
	}
	lies, full := axis.Angle, 180.0
	if t.mirrored {
		lies = 180 - lies
	}
	if axis.OneWay {
		full = 360
	}
	off := math.Abs(math.Remainder(lies+t.rotation-heading, full)) - axis.Tolerance
	if off <= 0 {
		return 0
	}
	return (strayLeast + float64(off*strayLoss)) * math.Sqrt(f.forms[piece].hull) / 10
}
