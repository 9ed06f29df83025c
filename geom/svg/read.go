package svg

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
)

const (
	space   = "http://www.w3.org/2000/svg"
	deepest = 256
)

// silent are elements that draw nothing where they stand.
const silent = " defs symbol clipPath mask marker pattern linearGradient radialGradient filter style script title desc metadata view "

// Read reads the outlines of an SVG drawing, in millimetres, y up. A unit
// stated in the options is the length of one unit of the viewBox and counts
// before the size in the file.
//
// Errors are faults of kind Invalid or TooLarge that name the line.
func Read(in io.Reader, o outline.Options) (outline.Drawing, error) {
	c, err := outline.Collect(o)
	if err != nil {
		return outline.Drawing{}, err
	}
	limited := &io.LimitedReader{R: in, N: outline.MaxBytes + 1}
	r := reader{Collector: c, xml: xml.NewDecoder(limited)}
	err = r.read()
	if limited.N <= 0 {
		return outline.Drawing{}, fault.New(fault.TooLarge, "the drawing is larger than %d MiB", outline.MaxBytes>>20)
	}
	if err != nil {
		return outline.Drawing{}, err
	}
	return c.Drawing(), nil
}

// reader is a file under way. groups holds the open groups, the drawing first.
type reader struct {
	*outline.Collector
	xml    *xml.Decoder
	groups []group
}

type group struct {
	m     outline.Affine
	layer string
}

func (r *reader) read() error {
	for {
		line, _ := r.xml.InputPos()
		token, err := r.xml.Token()
		if err == io.EOF && r.groups != nil {
			return nil
		}
		if err != nil {
			return r.broken(err)
		}
		switch t := token.(type) {
		case xml.StartElement:
			err = r.start(element{t, line})
		case xml.EndElement:
			r.groups = r.groups[:len(r.groups)-1]
		}
		if err != nil {
			return err
		}
	}
}

// broken says where the XML stops making sense.
func (r *reader) broken(err error) error {
	line, _ := r.xml.InputPos()
	says := err.Error()
	if s, ok := errors.AsType[*xml.SyntaxError](err); ok {
		line, says = s.Line, s.Msg
	}
	return &fault.Fault{Kind: fault.Invalid, Where: fmt.Sprintf("line %d", line), Msg: "this is no whole SVG drawing: " + says, Cause: err}
}

func (r *reader) start(e element) error {
	name := e.Name.Local
	if r.groups == nil {
		if name != "svg" {
			return e.in(fault.New(fault.Invalid, "an SVG drawing begins with svg"), "")
		}
		m, err := r.size(e)
		r.groups = append(r.groups, group{m: m})
		return err
	}
	draw := shapes[name]
	foreign := e.Name.Space != space && e.Name.Space != ""
	switch {
	case len(r.groups) == 0:
		return e.in(fault.New(fault.Invalid, "it stands after the end of the drawing"), "")
	case foreign || strings.Contains(silent, " "+name+" "):
		return r.pass()
	case e.hidden():
		r.Skip(name+" that is hidden", e.line)
		return r.pass()
	case draw == nil && name != "g" && name != "a":
		r.Skip(name, e.line)
		return r.pass()
	}
	g := r.groups[len(r.groups)-1]
	m, err := transform(e.attribute("transform"))
	if err != nil {
		return e.in(err, "transform")
	}
	g.m = g.m.After(m)
	if draw != nil {
		if err := r.shape(e, g, draw); err != nil {
			return err
		}
		return r.pass()
	}
	return r.open(e, g)
}

// pass reads over what is inside the element begun last.
func (r *reader) pass() error {
	if err := r.xml.Skip(); err != nil {
		return r.broken(err)
	}
	return nil
}

func (r *reader) open(e element, g group) error {
	if len(r.groups) == deepest {
		return e.in(fault.New(fault.TooLarge, "groups are nested more than %d deep", deepest), "")
	}
	for _, name := range []string{"id", "data-layer"} {
		if v := e.attribute(name); v != "" {
			g.layer = v
		}
	}
	r.groups = append(r.groups, g)
	return nil
}

func (r *reader) shape(e element, g group, draw func(element, *pen) error) error {
	p := &pen{m: g.m, tolerance: r.Flatten}
	p.add = func(points []geom.Point, closed bool) error {
		return r.Add(outline.Outline{Layer: g.layer, Closed: closed, Points: points, Line: e.line})
	}
	if err := draw(e, p); err != nil {
		return err
	}
	p.lift(false)
	return e.in(p.err, "")
}

// size returns the map from the drawing's units to millimetres, y up.
func (r *reader) size(e element) (outline.Affine, error) {
	var box []float64
	if s := (scan{text: e.attribute("viewBox")}); !s.end() {
		v, err := s.list(4)
		if err != nil {
			return outline.Affine{}, e.in(err, "viewBox")
		}
		if !(v[2] > 0 && v[3] > 0) {
			return outline.Affine{}, e.in(fault.New(fault.Invalid, "a size of %g by %g", v[2], v[3]), "viewBox")
		}
		box = v
	}
	kx, ky := r.Unit, r.Unit
	if r.Unit == 0 {
		var err error
		if kx, ky, err = e.scale(box); err != nil {
			return outline.Affine{}, err
		}
	}
	m := outline.Scale(kx, -ky)
	if box != nil {
		m = m.After(outline.Move(geom.Point{X: -box[0], Y: -box[1] - box[3]}))
	}
	return m, nil
}

// scale returns the millimetres of one unit, by width and height and the box.
func (e element) scale(box []float64) (kx, ky float64, err error) {
	var k [2]float64
	for i, name := range []string{"width", "height"} {
		v, unit, err := e.length(name)
		if err != nil {
			return 0, 0, err
		}
		if mm := lengths[unit]; mm > 0 && box != nil && v > 0 {
			k[i] = v * mm / box[2+i]
		}
	}
	switch {
	case k[0] == 0 && k[1] == 0:
		return 0, 0, e.in(fault.New(fault.Invalid, "the drawing does not say its size in a real unit"), "").(*fault.Fault).
			WithHint("State the unit: how many millimetres is 1 in this drawing? 1 for millimetres, 25.4 for inches, 0.264583 for pixels of 96 to an inch.")
	case k[0] == 0 || k[1] == 0:
		one := max(k[0], k[1])
		return one, one, nil
	case strings.HasPrefix(strings.TrimSpace(e.attribute("preserveAspectRatio")), "none"):
		return k[0], k[1], nil
	}
	one := math.Min(k[0], k[1])
	return one, one, nil
}
