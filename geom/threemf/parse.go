package threemf

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"

	"fettle/fault"
	"fettle/geom/mesh"
)

// units are the millimetres of one unit.
var units = map[string]float64{
	"micron": 0.001, "millimeter": 1, "centimeter": 10, "inch": 25.4, "foot": 304.8, "meter": 1000,
}

// document is what a model says.
type document struct {
	unit    float64
	objects map[string]*object
	items   []use // what is built
}

// object is a mesh, or made of other objects.
type object struct {
	points []mesh.Vec
	faces  [][3]int64
	parts  []use
	other  bool // not the thing itself: support and the like
}

// use is an object at a place.
type use struct {
	id   string
	move mesh.Affine
	line int
}

// parser walks the XML.
type parser struct {
	doc    document
	xml    *xml.Decoder
	object *object
	limits mesh.Limits
	points int // of all objects
	faces  int
}

func parse(text []byte, limits mesh.Limits) (document, error) {
	p := parser{xml: xml.NewDecoder(bytes.NewReader(text)), limits: limits.Standard()}
	p.doc = document{unit: 1, objects: map[string]*object{}}
	for seen := false; ; {
		line, _ := p.xml.InputPos()
		token, err := p.xml.Token()
		if err == io.EOF && seen {
			return p.doc, nil
		}
		if err == nil {
			if t, ok := token.(xml.StartElement); ok {
				err = p.start(t, line)
				seen = true
			}
		} else {
			err = fault.New(fault.Invalid, "the XML makes no sense here")
		}
		if err != nil {
			return document{}, fault.Within(err, fmt.Sprintf("model, line %d", line))
		}
	}
}

// start reads an element; its faults have no line yet.
func (p *parser) start(t xml.StartElement, line int) error {
	a := attributes(t.Attr)
	switch t.Name.Local {
	case "model":
		return p.model(a)
	case "object":
		if len(p.doc.objects) >= mostObjects {
			return fault.New(fault.TooLarge, "the model has more than %d objects", mostObjects)
		}
		kind := a.get("type")
		p.object = &object{other: kind == "support" || kind == "solidsupport" || kind == "other"}
		p.doc.objects[a.get("id")] = p.object
	case "vertex":
		return p.vertex(a)
	case "triangle":
		return p.triangle(a)
	case "component", "item":
		return p.use(t.Name.Local, a, line)
	}
	return nil
}

func (p *parser) model(a attributes) error {
	unit := a.get("unit")
	if unit == "" {
		return nil // millimetres, says the specification
	}
	if p.doc.unit = units[unit]; p.doc.unit == 0 {
		return fault.New(fault.Invalid, "the unit %.20q is not known", unit)
	}
	return nil
}

func (p *parser) vertex(a attributes) error {
	if p.object == nil {
		return fault.New(fault.Invalid, "a vertex stands in no object")
	}
	p.points++
	if err := p.limits.Count(p.points, 0); err != nil {
		return err
	}
	var x [3]float64
	for i, name := range []string{"x", "y", "z"} {
		var err error
		if x[i], err = strconv.ParseFloat(a.get(name), 64); err != nil {
			return fault.New(fault.Invalid, "%s is %.40q, not a number", name, a.get(name))
		}
	}
	p.object.points = append(p.object.points, mesh.Vec{X: x[0], Y: x[1], Z: x[2]})
	return nil
}

func (p *parser) triangle(a attributes) error {
	if p.object == nil {
		return fault.New(fault.Invalid, "a triangle stands in no object")
	}
	p.faces++
	if err := p.limits.Count(0, p.faces); err != nil {
		return err
	}
	var f [3]int64
	for i, name := range []string{"v1", "v2", "v3"} {
		v, err := strconv.ParseInt(a.get(name), 10, 64)
		if err != nil || v < 0 || v >= int64(len(p.object.points)) {
			return fault.New(fault.Invalid, "%s is %.40q, not one of the %d points", name, a.get(name), len(p.object.points))
		}
		f[i] = v
	}
	p.object.faces = append(p.object.faces, f)
	return nil
}

func (p *parser) use(what string, a attributes, line int) error {
	if path := a.get("path"); path != "" {
		return fault.New(fault.Invalid, "an object stands in another model, %.60q", path).WithHint("Save it as one model.")
	}
	u := use{id: a.get("objectid"), move: mesh.Identity, line: line}
	if text := a.get("transform"); text != "" {
		words := strings.Fields(text)
		if len(words) != 12 {
			return fault.New(fault.Invalid, "the transform has %d numbers, 12 are due", len(words))
		}
		for i, word := range words { // four rows of three: a place is a row before the matrix
			x, err := strconv.ParseFloat(word, 64)
			if err != nil {
				return fault.New(fault.Invalid, "%.40q in the transform is not a number", word)
			}
			u.move[i%3][i/3] = x
		}
	}
	if what == "item" {
		p.doc.items = append(p.doc.items, u)
	} else if p.object != nil {
		p.object.parts = append(p.object.parts, u)
	}
	return nil
}

type attributes []xml.Attr

func (a attributes) get(name string) string {
	for _, x := range a {
		if x.Name.Local == name {
			return x.Value
		}
	}
	return ""
}
