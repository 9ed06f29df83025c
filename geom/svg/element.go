package svg

import (
	"encoding/xml"
	"errors"
	"fmt"
	"math"
	"strings"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
)

// element is one tag with the line it stands on.
type element struct {
	xml.StartElement
	line int
}

// attribute returns an attribute without a namespace.
func (e element) attribute(name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

// in puts the line and the name in front of a fault that has no line yet.
func (e element) in(err error, what string) error {
	f, ok := errors.AsType[*fault.Fault](err)
	if !ok || strings.HasPrefix(f.Where, "line ") {
		return err
	}
	return f.At(fmt.Sprintf("line %d, %s", e.line, strings.TrimSpace(e.Name.Local+" "+what)))
}

func (e element) hidden() bool {
	style := strings.ReplaceAll(e.attribute("style"), " ", "")
	return e.attribute("display") == "none" || strings.Contains(style, "display:none")
}

// Millimetres in a unit of length. A pixel is none, see the package comment.
var lengths = map[string]float64{"mm": 1, "cm": 10, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "q": 0.25}

// pixel is how CSS ties real units to the drawing's own.
const pixel = 25.4 / 96

// length splits a number from its unit, in small letters.
func (e element) length(name string) (v float64, unit string, err error) {
	s := scan{text: e.attribute(name)}
	if s.end() {
		return 0, "", nil
	}
	if v, err = s.number(); err != nil {
		return 0, "", e.in(err, name)
	}
	return v, strings.ToLower(strings.TrimSpace(s.text[s.at:])), nil
}

// numbers reads lengths in the drawing's own units; one left out is 0.
func (e element) numbers(names ...string) ([]float64, error) {
	out := make([]float64, len(names))
	for i, name := range names {
		v, unit, err := e.length(name)
		if err != nil {
			return nil, err
		}
		if mm, known := lengths[unit]; known {
			v *= mm / pixel
		} else if unit != "" && unit != "px" {
			return nil, e.in(fault.New(fault.Invalid, "%.10q is no unit of length that is read here", unit), name)
		}
		out[i] = v
	}
	return out, nil
}

// shapes are the elements that draw.
var shapes = map[string]func(element, *pen) error{
	"path": path, "polygon": polygon, "polyline": polygon, "line": line,
	"rect": rect, "circle": ellipse, "ellipse": ellipse,
}

func path(e element, p *pen) error { return e.in(draw(p, e.attribute("d")), "d") }

func polygon(e element, p *pen) error {
	s := scan{text: e.attribute("points")}
	for first := true; !s.end() && p.err == nil; first = false {
		v, err := s.list(2)
		if err != nil {
			return e.in(err, "points")
		}
		if at := (geom.Point{X: v[0], Y: v[1]}); first {
			p.move(at)
		} else {
			p.line(at)
		}
	}
	if e.Name.Local == "polygon" && len(p.points) > 0 {
		p.close()
	}
	return nil
}

func line(e element, p *pen) error {
	v, err := e.numbers("x1", "y1", "x2", "y2")
	if err != nil {
		return err
	}
	p.move(geom.Point{X: v[0], Y: v[1]})
	p.line(geom.Point{X: v[2], Y: v[3]})
	return nil
}

// ellipse draws circles too.
func ellipse(e element, p *pen) error {
	radii := []string{"cx", "cy", "rx", "ry"}
	if e.Name.Local == "circle" {
		radii = []string{"cx", "cy", "r", "r"}
	}
	v, err := e.numbers(radii...)
	if err != nil {
		return err
	}
	if !(v[2] > 0 && v[3] > 0) {
		return e.in(fault.New(fault.Invalid, "radii of %g and %g", v[2], v[3]), "")
	}
	start := geom.Point{X: v[0] + v[2], Y: v[1]}
	p.move(start)
	p.conic(outline.Conic{Centre: geom.Point{X: v[0], Y: v[1]}, U: geom.Point{X: v[2]}, V: geom.Point{Y: v[3]}, Sweep: 2 * math.Pi}, start)
	p.close()
	return nil
}

// rect draws a rectangle; of two radii one may be left out.
func rect(e element, p *pen) error {
	v, err := e.numbers("x", "y", "width", "height", "rx", "ry")
	if err != nil {
		return err
	}
	x, y, w, h, rx, ry := v[0], v[1], v[2], v[3], v[4], v[5]
	if !(w > 0 && h > 0) {
		return e.in(fault.New(fault.Invalid, "a rectangle of %g by %g", w, h), "")
	}
	if e.attribute("rx") == "" {
		rx = ry
	} else if e.attribute("ry") == "" {
		ry = rx
	}
	rx, ry = min(max(rx, 0), w/2), min(max(ry, 0), h/2)
	corners := [4]geom.Point{{X: x + w - rx, Y: y + ry}, {X: x + w - rx, Y: y + h - ry}, {X: x + rx, Y: y + h - ry}, {X: x + rx, Y: y + ry}}
	p.move(corners[3].Add(geom.Point{Y: -ry}))
	for i, c := range corners {
		arc := outline.Conic{Centre: c, U: geom.Point{X: rx}, V: geom.Point{Y: ry}, From: float64(i-1) * math.Pi / 2, Sweep: math.Pi / 2}
		p.line(arc.At(arc.From))
		if rx > 0 && ry > 0 {
			p.conic(arc, arc.At(arc.From+arc.Sweep))
		}
	}
	p.close()
	return nil
}
