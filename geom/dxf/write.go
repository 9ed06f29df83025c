package dxf

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
)

// Version is the form of a written drawing.
type Version int

// The forms. R12 has no place for the unit, which is therefore said in a
// comment only: whoever reads it must be told that 1 is a millimetre.
const (
	R12 Version = iota
	R2000
)

// Write writes a plan as a drawing in millimetres, every outline one polyline
// and every label one text on its layer; an empty layer is layer 0. Coordinates
// are rounded to a tenth of a micrometre. The errors are faults of kind Invalid
// that name the outline or label, counted from 1, or what w says.
func Write(w io.Writer, plan outline.Plan, v Version) error {
	box, err := plan.Box()
	if err != nil {
		return err
	}
	layers, err := layersOf(plan)
	if err != nil {
		return err
	}
	out := &writer{w: bufio.NewWriter(w), v: v}
	out.put(999, "outlines in millimetres")
	out.head(len(layers)+len(plan.Outlines)+len(plan.Labels), box)
	out.tables(layers)
	if v == R2000 {
		out.blocks()
	}
	out.begin("ENTITIES")
	for _, o := range plan.Outlines {
		if v == R12 {
			out.heavy(o)
		} else {
			out.light(o)
		}
	}
	for _, l := range plan.Labels {
		out.text(l)
	}
	out.put(0, "ENDSEC")
	if v == R2000 {
		out.objects()
	}
	out.put(0, "EOF")
	return out.w.Flush()
}

// layersOf returns the layers in the order of their first outline or label,
// after layer 0 which every drawing has, and checks their names.
func layersOf(plan outline.Plan) ([]string, error) {
	layers, known := []string{"0"}, map[string]bool{"0": true, "": true}
	add := func(name, where string) error {
		if strings.ContainsAny(name, "<>/\\\":;?*|=,`") || strings.ContainsFunc(name, func(r rune) bool { return r < ' ' || r > 0xFFFF }) ||
			len(name) > 255 || strings.TrimSpace(name) != name {
			return fault.New(fault.Invalid, "%.40q cannot be the name of a layer", name).At(where).
				WithHint("Leave out < > / \\ \" : ; ? * | = , ` and spaces at the ends.")
		}
		if !known[name] {
			known[name] = true
			layers = append(layers, name)
		}
		return nil
	}
	for i, o := range plan.Outlines {
		if err := add(o.Layer, outline.Nth(i)); err != nil {
			return nil, err
		}
	}
	for i, l := range plan.Labels {
		if err := add(l.Layer, fmt.Sprintf("label %d", i+1)); err != nil {
			return nil, err
		}
	}
	return layers, nil
}

type writer struct {
	w      *bufio.Writer
	v      Version
	handle int
}

func (w *writer) put(code int, value string) { fmt.Fprintf(w.w, "%3d\n%s\n", code, value) }

func (w *writer) int(code, value int) { w.put(code, strconv.Itoa(value)) }

func (w *writer) point(code int, p geom.Point) {
	w.put(code, coordinate(p.X))
	w.put(code+10, coordinate(p.Y))
}

func coordinate(v float64) string {
	s := strings.TrimRight(strconv.FormatFloat(v, 'f', 4, 64), "0")
	if s = strings.TrimSuffix(s, "."); s == "-0" {
		return "0"
	}
	return s
}

// name writes a name; letters beyond ASCII in the form \U+XXXX.
func (w *writer) name(code int, s string) {
	if s == "" {
		s = "0"
	}
	var b strings.Builder
	for _, r := range s {
		if r < 0x7f {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, `\U+%04X`, r)
		}
	}
	w.put(code, b.String())
}

func (w *writer) begin(section string) {
	w.put(0, "SECTION")
	w.put(2, section)
}

func (w *writer) heavy(o outline.Outline) {
	w.put(0, "POLYLINE")
	w.name(8, o.Layer)
	w.int(66, 1)
	w.point(10, geom.Point{})
	w.put(30, "0")
	w.int(70, closed(o))
	for _, p := range o.Points {
		w.put(0, "VERTEX")
		w.name(8, o.Layer)
		w.point(10, p)
		w.put(30, "0")
	}
	w.put(0, "SEQEND")
	w.name(8, o.Layer)
}

// text writes a label with its middle at its place.
func (w *writer) text(l outline.Label) {
	w.put(0, "TEXT")
	if w.v == R2000 {
		w.put(5, w.next())
		w.put(330, modelSpace)
		w.put(100, "AcDbEntity")
	}
	w.name(8, l.Layer)
	if w.v == R2000 {
		w.put(100, "AcDbText")
	}
	w.point(10, l.At)
	w.put(30, "0")
	w.put(40, coordinate(l.Height))
	w.name(1, strings.ReplaceAll(l.Text, "%%", "% %")) // two of them begin a code
	w.int(72, 1)
	w.point(11, l.At)
	w.put(31, "0")
	if w.v == R2000 {
		w.put(100, "AcDbText")
	}
	w.int(73, 2)
}

func (w *writer) light(o outline.Outline) {
	w.put(0, "LWPOLYLINE")
	w.put(5, w.next())
	w.put(330, modelSpace)
	w.put(100, "AcDbEntity")
	w.name(8, o.Layer)
	w.put(100, "AcDbPolyline")
	w.int(90, len(o.Points))
	w.int(70, closed(o))
	w.put(43, "0")
	for _, p := range o.Points {
		w.point(10, p)
	}
}

func closed(o outline.Outline) int {
	if o.Closed {
		return 1
	}
	return 0
}

// next returns a new handle, in hexadecimal. Those of the tables lie below.
func (w *writer) next() string {
	w.handle++
	return fmt.Sprintf("%X", firstHandle+w.handle-1)
}
