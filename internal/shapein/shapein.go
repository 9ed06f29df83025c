// Package shapein takes shapes in: from typed corners, or from the outlines of a
// DXF or SVG file that comes with a form.
package shapein

import (
	"cmp"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/dxf"
	"fettle/geom/outline"
	"fettle/geom/svg"
	"fettle/internal/web"
)

// Farthest is how far a typed place may lie from the origin, in mm.
const Farthest = 100_000

// FileLimit is the most a form with a drawing may carry, in bytes.
const FileLimit = 9 << 20

// Read reads typed or pasted corners of so many mm a unit: a corner a line, "x y" or
// "x, y", or all of a ring on one line. An empty line, or the next such line,
// begins what is cut out.
func Read(text string, unit float64) (build.Shape, error) {
	var rings [][]geom.Point
	var open []geom.Point
	end := func() {
		if len(open) > 0 {
			rings, open = append(rings, open), nil
		}
	}
	for line := range strings.Lines(text) {
		values, err := Numbers(line)
		switch {
		case err != nil:
			return build.Shape{}, err
		case len(values)%2 != 0:
			return build.Shape{}, fault.New(fault.Invalid, "%q has an odd number of numbers: x and y belong together", strings.TrimSpace(line))
		case len(values) != 2:
			end()
		}
		for i := 0; i < len(values); i += 2 {
			open = append(open, geom.Point{X: unit * values[i], Y: unit * values[i+1]})
		}
		if len(values) > 2 {
			end()
		}
	}
	end()
	return shapeOf(rings)
}

// shapeOf makes a shape of rings, the outer one first.
func shapeOf(rings [][]geom.Point) (build.Shape, error) {
	if len(rings) == 0 {
		return build.Shape{}, fault.New(fault.Invalid, "no corner is given")
	}
	p := geom.Polygon{Outer: geom.Ring(rings[0]).Tidy()}
	for _, h := range rings[1:] {
		p.Holes = append(p.Holes, geom.Ring(h).Tidy())
	}
	if err := p.Check(); err != nil {
		return build.Shape{}, err
	}
	return build.ShapeOf(p), nil
}

// Numbers parts the numbers of a line by blanks, semicolons and commas.
func Numbers(line string) ([]float64, error) {
	words := strings.FieldsFunc(strings.ReplaceAll(line, "−", "-"), func(r rune) bool { return strings.ContainsRune(" \t\r\n;,", r) })
	list := make([]float64, len(words))
	for i, w := range words {
		v, err := strconv.ParseFloat(w, 64)
		if err != nil || math.IsNaN(v) || math.Abs(v) > Farthest {
			return nil, fault.New(fault.Invalid, "%q is no number in reach: write a point, not a comma, for decimals", w)
		}
		list[i] = v
	}
	return list, nil
}

// FromFile reads the largest closed line of a drawing file, and those inside it
// as what is cut out. Unit is mm in one unit of the file; 0 as the file says.
func FromFile(name string, in io.Reader, unit float64) (build.Shape, error) {
	d, err := drawing(name, in, unit)
	if err != nil {
		return build.Shape{}, err
	}
	var rings [][]geom.Point
	for _, l := range d.Outlines {
		if l.Closed && len(l.Points) > 2 {
			rings = append(rings, l.Points)
		}
	}
	if len(rings) == 0 && len(d.Open) > 0 {
		at := d.Open[0]
		return build.Shape{}, fault.New(fault.Invalid, "has no closed line: the one of line %d stays open from %.1f, %.1f to %.1f, %.1f", at.Line, at.From.X, at.From.Y, at.To.X, at.To.Y)
	}
	slices.SortStableFunc(rings, func(a, b []geom.Point) int {
		return cmp.Compare(math.Abs(geom.RingArea(b)), math.Abs(geom.RingArea(a)))
	})
	rings = slices.DeleteFunc(rings, func(r []geom.Point) bool { return !geom.Ring(rings[0]).Contains(r[0]) && &r[0] != &rings[0][0] })
	return shapeOf(rings)
}

// Drawn reads a shape from a form: its file where one was chosen, else its
// corners. Neither is no shape. The field unit is mm in one unit of the file;
// empty is as the file says. Corners are of so many mm a unit.
func Drawn(f *web.Form, corners, file string, each float64) build.Shape {
	if in, head := f.File(file); in != nil {
		defer in.Close()
		s, err := FromFile(head.Filename, in, Unit(f))
		if err != nil {
			f.Fail(file, err.Error())
		}
		return s
	}
	if strings.TrimSpace(f.Raw(corners)) == "" {
		return build.Shape{}
	}
	s, err := Read(f.Raw(corners), each)
	if err != nil {
		f.Fail(corners, err.Error())
	}
	return s
}

// Unit is the field unit of a form in mm; 0 where it is empty.
func Unit(f *web.Form) float64 {
	if strings.TrimSpace(f.Raw("unit")) == "" {
		return 0
	}
	return float64(f.Decimal("unit", 3, 1, 1_000_000)) / 1000
}

// AtOrigin moves a shape so that its box begins at 0, 0, and returns the far
// corner of that box then: its size.
func AtOrigin(s build.Shape) (moved build.Shape, size build.Spot) {
	low, high := s.Outer[0], s.Outer[0]
	for _, q := range s.Outer {
		low[0], low[1] = min(low[0], q[0]), min(low[1], q[1])
		high[0], high[1] = max(high[0], q[0]), max(high[1], q[1])
	}
	move := func(r build.Ring) build.Ring {
		out := make(build.Ring, len(r))
		for i, q := range r {
			out[i] = build.Spot{q[0] - low[0], q[1] - low[1]}
		}
		return out
	}
	moved.Outer = move(s.Outer)
	for _, h := range s.Holes {
		moved.Holes = append(moved.Holes, move(h))
	}
	return moved, build.Spot{high[0] - low[0], high[1] - low[1]}
}

// Corners writes a shape as its field takes it.
func Corners(s build.Shape) string {
	var b strings.Builder
	for i, r := range slices.Concat([]build.Ring{s.Outer}, s.Holes) {
		if i > 0 {
			b.WriteByte('\n')
		}
		for _, p := range r {
			b.WriteString(number(p[0].Mm()) + " " + number(p[1].Mm()) + "\n")
		}
	}
	return b.String()
}

// number writes hundredths of a millimetre, and no zeros behind.
func number(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }

// drawing reads a DXF or SVG file.
func drawing(name string, in io.Reader, unit float64) (outline.Drawing, error) {
	o := outline.Options{Unit: unit, Flatten: 0.2, Join: 0.5}
	switch strings.ToLower(filepath.Ext(name)) {
	case ".dxf":
		return dxf.Read(in, o)
	case ".svg":
		return svg.Read(in, o)
	}
	return outline.Drawing{}, fault.New(fault.Invalid, "is no DXF or SVG file")
}

// Lines reads all lines of a drawing file, open ones too. Unit is as for FromFile.
func Lines(name string, in io.Reader, unit float64) ([]outline.Outline, error) {
	d, err := drawing(name, in, unit)
	if err == nil && len(d.Outlines) == 0 {
		err = fault.New(fault.Invalid, "has no line")
	}
	return d.Outlines, err
}
