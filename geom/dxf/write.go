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

// Write writes outlines as a drawing in millimetres, every outline one
// polyline on its layer; an empty layer is layer 0. Coordinates are rounded to
// a tenth of a micrometre. The errors are faults of kind Invalid that name the
// outline, counted from 1, or what w says.
func Write(w io.Writer, list []outline.Outline, v Version) error {
	box, err := outline.Check(list)
	if err != nil {
		return err
	}
	layers, err := layersOf(list)
	if err != nil {
		return err
	}
	out := &writer{w: bufio.NewWriter(w), v: v}
	out.put(999, "outlines in millimetres")
	out.head(len(list), box)
	out.tables(layers)
	if v == R2000 {
		out.blocks()
	}
	out.begin("ENTITIES")
	for _, o := range list {
		if v == R12 {
			out.heavy(o)
		} else {
			out.light(o)
		}
	}
	out.put(0, "ENDSEC")
	if v == R2000 {
		out.objects()
	}
	out.put(0, "EOF")
	return out.w.Flush()
}

// layersOf returns the layers in the order of their first outline, after
// layer 0 which every drawing has, and checks every outline.
func layersOf(list []outline.Outline) ([]string, error) {
	layers, known := []string{"0"}, map[string]bool{"0": true, "": true}
	for i, o := range list {
		if strings.ContainsAny(o.Layer, "<>/\\\":;?*|=,`") || strings.ContainsFunc(o.Layer, func(r rune) bool { return r < ' ' || r > 0xFFFF }) ||
			len(o.Layer) > 255 || strings.TrimSpace(o.Layer) != o.Layer {
			return nil, fault.New(fault.Invalid, "%.40q cannot be the name of a layer", o.Layer).At(outline.Nth(i)).
				WithHint("Leave out < > / \\ \" : ; ? * | = , ` and spaces at the ends.")
		}
		if !known[o.Layer] {
			known[o.Layer] = true
			layers = append(layers, o.Layer)
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
