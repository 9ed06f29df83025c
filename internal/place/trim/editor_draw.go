package trim

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fettle/geom"
)

// edge is the bare ground around a drawn sheet, in mm.
const edge = 20

// viewBox shows a whole sheet.
func (s editSheet) viewBox() string {
	b := s.Outline.Bounds()
	return fmt.Sprintf("%.1f %.1f %.1f %.1f", b.Min.X-edge, -b.Max.Y-edge, b.Width()+2*edge, b.Height()+2*edge)
}

// path is a polygon as SVG draws it, y down.
func path(p geom.Polygon) string {
	var b strings.Builder
	for _, ring := range p.Rings() {
		for i, q := range ring {
			fmt.Fprintf(&b, "%c%.6g %.6g", "ML"[min(i, 1)], q.X, -q.Y)
		}
		b.WriteByte('Z')
	}
	return b.String()
}

func ringPath(ring []geom.Point) string { return path(geom.Polygon{Outer: ring}) }

// lies is the transform of a copy.
func (p editPlace) transform() string {
	return "translate(" + short(p.X) + " " + short(-p.Y) + ") rotate(" + short(-p.Turn) + ")"
}

// middle is where a copy's name stands: its centroid, in SVG's axes.
func middle(p geom.Polygon) (x, y float64) {
	c := geom.Ring(p.Outer).Centroid()
	return c.X, -c.Y
}

// upright keeps the words of a turned copy level.
func (c editCopy) upright() string {
	return fmt.Sprintf("rotate(%.6g %s)", c.Place.Turn, c.pivot())
}

func (c editCopy) pivot() string {
	x, y := middle(c.Shape)
	return fmt.Sprintf("%.6g %.6g", x, y)
}

// grain is the arrow of a copy's tight direction: as long as half its smaller side.
func (c editCopy) grain() string {
	b := c.Shape.Bounds()
	x, y := middle(c.Shape)
	return arrow(x, y, c.Axis.Angle, math.Min(b.Width(), b.Height())*0.42, c.Axis.OneWay)
}

// arrow is a line with heads at both ends, or at its front only.
func arrow(x, y, angle, half float64, oneWay bool) string {
	sin, cos := math.Sincos(angle * math.Pi / 180)
	at := func(along, across float64) string {
		return fmt.Sprintf("%.1f %.1f", x+along*cos-across*sin, y-along*sin-across*cos)
	}
	head := math.Min(half/3, 26)
	d := "M" + at(-half, 0) + "L" + at(half, 0) + "M" + at(half-head, head/2) + "L" + at(half, 0) + "L" + at(half-head, -head/2)
	if !oneWay {
		d += "M" + at(head-half, head/2) + "L" + at(-half, 0) + "L" + at(head-half, -head/2)
	}
	return d
}

func (h editHeading) arrow() string { return arrow(h.At.X, -h.At.Y, h.Angle, 90, false) }

// class is the hatching of a zone: what takes nothing is crossed, the rest is
// ruled the closer the less it takes.
func (z editZone) class() string { return fmt.Sprintf("lay-zone lay-zone-%d", min(z.Quality, 3)) }

// size is a copy's own measure.
func (c editCopy) size() string {
	b := c.Shape.Bounds()
	return fmt.Sprintf("%.0f × %.0f mm", b.Width(), b.Height())
}

// thumb shows a copy alone.
func (c editCopy) thumb() string {
	b := c.Shape.Bounds().Grow(math.Max(c.Shape.Bounds().Width(), c.Shape.Bounds().Height()) * 0.04)
	return fmt.Sprintf("%.1f %.1f %.1f %.1f", b.Min.X, -b.Max.Y, b.Width(), b.Height())
}

// short writes a number to the hundredth.
func short(v float64) string { return whole(math.Round(v*100) / 100) }

// whole writes a number with every digit it has: rounded by a hair, what an
// engine has laid edge to edge would overlap.
func whole(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// sum counts what the checker found.
func (e *editor) sum() string {
	if len(e.Found) == 1 {
		return "The exact check finds one fault."
	}
	return fmt.Sprintf("The exact check finds %d faults.", len(e.Found))
}

// ringText writes keep-outs as their field holds them.
func ringText(rings [][]geom.Point) string {
	var b strings.Builder
	for i, ring := range rings {
		if i > 0 {
			b.WriteByte('\n')
		}
		for j, p := range ring {
			if j > 0 {
				b.WriteString(", ")
			}
			fmt.Fprintf(&b, "%.0f %.0f", p.X, p.Y)
		}
	}
	return b.String()
}
