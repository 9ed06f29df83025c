package outline

import (
	"fmt"
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Collector takes the strokes of a file in their order and makes a Drawing.
type Collector struct {
	Options  // with the defaults filled in
	strands  []Outline
	vertices int
	skipped  []Skip
	at       map[string]int // of skipped, by what
}

// Collect begins a drawing; the error is a fault in the options.
func Collect(o Options) (*Collector, error) {
	o, err := o.filled()
	return &Collector{Options: o, at: map[string]int{}}, err
}

// Skip notes something that is not an outline.
func (c *Collector) Skip(what string, line int) {
	i, known := c.at[what]
	if !known {
		i = len(c.skipped)
		c.at[what], c.skipped = i, append(c.skipped, Skip{What: what, Line: line})
	}
	c.skipped[i].Count++
}

// same is how far apart, in millimetres, two ends of one closed stroke are the
// same point but for rounding: a nanometre.
const same = 1e-6

// Add takes one stroke in millimetres. Points that repeat the one before are
// left out. The error is a fault of kind Invalid or TooLarge with the line.
func (c *Collector) Add(s Outline) error {
	where := fmt.Sprintf("line %d", s.Line)
	kept := make([]geom.Point, 0, len(s.Points))
	for _, p := range s.Points {
		if !(math.Abs(p.X) <= maxCoordinate && math.Abs(p.Y) <= maxCoordinate) {
			return fault.New(fault.Invalid, "the place %.4g, %.4g mm lies further out than 10 km", p.X, p.Y).At(where).
				WithHint("Is the unit of the file right? Move the drawing to its origin.")
		}
		if n := len(kept); n == 0 || kept[n-1] != p {
			kept = append(kept, p)
		}
	}
	if c.vertices += max(len(kept), 1); c.vertices > MaxVertices {
		return fault.New(fault.TooLarge, "the drawing has more than %d points", MaxVertices).At(where).
			WithHint("Save only the pieces, or flatten more coarsely.")
	}
	if n := len(kept); s.Closed && n > 1 && kept[0].Distance(kept[n-1]) < same {
		kept = kept[:n-1]
	}
	if len(kept) < 2 {
		c.Skip("a stroke without length", s.Line)
		return nil
	}
	s.Points = kept
	s.Closed = s.Closed && len(kept) > 2
	c.strands = append(c.strands, s)
	return nil
}

// Drawing joins loose ends and returns all.
func (c *Collector) Drawing() Drawing {
	d := Drawing{Outlines: join(c.once(), c.Join), Skipped: c.skipped}
	for _, o := range d.Outlines {
		if !o.Closed {
			d.Open = append(d.Open, Open{o.Layer, o.Points[0], o.Points[len(o.Points)-1], o.Line})
		}
	}
	return d
}

// once returns the strokes without straight lines that were drawn twice over,
// which would pair with each other rather than with their neighbours.
func (c *Collector) once() []Outline {
	type line struct {
		layer string
		a, b  geom.Point
	}
	seen, kept := map[line]bool{}, make([]Outline, 0, len(c.strands))
	for _, s := range c.strands {
		if len(s.Points) == 2 {
			a, b := s.Points[0], s.Points[1]
			if seen[line{s.Layer, a, b}] || seen[line{s.Layer, b, a}] {
				c.Skip("a line drawn twice", s.Line)
				continue
			}
			seen[line{s.Layer, a, b}] = true
		}
		kept = append(kept, s)
	}
	return kept
}
