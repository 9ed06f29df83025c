package svg_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
	"fettle/geom/svg"
)

// drawing puts elements into a drawing of 100 by 100 mm, 1 unit a millimetre.
func drawing(elements string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">` + "\n" + elements + "\n</svg>"
}

var fine = outline.Options{Flatten: 0.001}

func read(t *testing.T, text string, o outline.Options) outline.Drawing {
	t.Helper()
	d, err := svg.Read(strings.NewReader(text), o)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return d
}

// area is signed: positive when the outline runs anticlockwise, y up.
func area(o outline.Outline) float64 {
	sum := 0.0
	for i, p := range o.Points {
		sum += p.Cross(o.Points[(i+1)%len(o.Points)]) / 2
	}
	return sum
}

func TestRead_Shapes(t *testing.T) {
	for _, c := range []struct {
		name, element string
		area          float64 // signed, y up
		first         geom.Point
	}{
		{"polygon", `<polygon points="10,10 30,10 30 40"/>`, -300, geom.Point{X: 10, Y: 90}},
		{"rect", `<rect x="10" y="10" width="20" height="30"/>`, -600, geom.Point{X: 10, Y: 90}},
		{"rect in centimetres of CSS", `<rect width="37.79527559px" height="1cm"/>`, -37.79527559 * 37.79527559, geom.Point{X: 0, Y: 100}},
		{"round rect", `<rect x="10" y="10" width="20" height="30" rx="5"/>`, -(600 - (4-math.Pi)*25), geom.Point{X: 15, Y: 90}},
		{"circle", `<circle cx="50" cy="50" r="10"/>`, -100 * math.Pi, geom.Point{X: 60, Y: 50}},
		{"ellipse, turned", `<ellipse cx="0" cy="0" rx="10" ry="5" transform="translate(50,50) rotate(90)"/>`, -50 * math.Pi, geom.Point{X: 50, Y: 40}},
		{"small letters", `<path d="m10 10l20 0 0 30z"/>`, -300, geom.Point{X: 10, Y: 90}},
		{"H and V", `<path d="M10 10H30V40h-20z"/>`, -600, geom.Point{X: 10, Y: 90}},
		{"exponents and no spaces", `<path d="M1e1.1e2L3e+1,10 3.0e1-0.5z"/>`, 0.5 * 20 * -10.5 * -1, geom.Point{X: 10, Y: 90}},
		{"two half circles, flags run together", `<path d="M40 50a10 10 0 1120 0a10 10 0 1 1-20 0z"/>`, -100 * math.Pi, geom.Point{X: 40, Y: 50}},
		{"the large part of a circle", `<path d="M 50 40 A 10 10 0 1 1 40 50 Z"/>`, -(75*math.Pi + 50), geom.Point{X: 50, Y: 60}},
		{"the small part, the other way", `<path d="M 50 40 A 10 10 0 0 0 40 50 Z"/>`, 25*math.Pi - 50, geom.Point{X: 50, Y: 60}},
		{"radii that do not reach", `<path d="M 40 50 A 1 1 0 0 1 60 50 Z"/>`, -50 * math.Pi, geom.Point{X: 40, Y: 50}},
		{"a turned ellipse by arcs", `<path d="M 50 40 A 10 5 90 0 1 50 60 A 10 5 90 0 1 50 40 Z"/>`, -50 * math.Pi, geom.Point{X: 50, Y: 60}},
		// Under y = x² from 0 to 1, of 10 by 10: a third.
		{"quadratic", `<path d="M 0 0 Q 5 0 10 10 V 0 Z"/>`, 100.0 / 3, geom.Point{X: 0, Y: 100}},
		// Two such waves, one above and one below the axis, and a triangle's half turn: the areas cancel.
		{"smooth quadratic", `<path d="M 0 50 Q 5 60 10 50 T 20 50 V 40 H 0 Z"/>`, 200, geom.Point{X: 0, Y: 50}},
		{"smooth cubic", `<path d="M 0 50 C 3 60 7 60 10 50 S 17 40 20 50 V 40 H 0 Z"/>`, 200, geom.Point{X: 0, Y: 50}},
		{"matrix that mirrors", `<polygon transform="matrix(-1 0 0 1 100 0)" points="10,10 30,10 30 40"/>`, 300, geom.Point{X: 90, Y: 90}},
		{"skew", `<rect transform="skewX(45)" x="0" y="10" width="20" height="30"/>`, -600, geom.Point{X: 10, Y: 90}},
		{"turned about a point", `<rect transform="rotate(180 50 50)" x="10" y="10" width="20" height="30"/>`, -600, geom.Point{X: 90, Y: 10}},
	} {
		d := read(t, drawing(c.element), fine)
		if len(d.Outlines) != 1 || !d.Outlines[0].Closed {
			t.Errorf("%s: %+v, want one closed outline", c.name, d)
			continue
		}
		o := d.Outlines[0]
		if got := area(o); math.Abs(got-c.area) > 0.05 {
			t.Errorf("%s: area %.3f, want %.3f", c.name, got, c.area)
		}
		if o.Points[0].Distance(c.first) > 1e-6 || o.Line != 2 {
			t.Errorf("%s: starts at %v on line %d, want %v on line 2", c.name, o.Points[0], o.Line, c.first)
		}
	}
}

// TestRead_ArcsStayWithinTolerance holds chords against the circle, also one
// that a group has scaled.
func TestRead_ArcsStayWithinTolerance(t *testing.T) {
	for _, tolerance := range []float64{0.001, 0.05, 0.5} {
		text := drawing(`<g transform="scale(10)"><path d="M -3 0 A 3 3 0 0 1 3 0 A 3 3 0 0 1 -3 0 Z"/></g>`)
		points := read(t, text, outline.Options{Flatten: tolerance}).Outlines[0].Points
		worst := 0.0
		for i, a := range points {
			b := points[(i+1)%len(points)]
			worst = max(worst, 30-math.Hypot(a.X+b.X, a.Y+b.Y-200)/2)
		}
		if worst > tolerance*(1+1e-6) || worst < tolerance/4 {
			t.Errorf("tolerance %g: chords stray by %g with %d points", tolerance, worst, len(points))
		}
	}
}

// TestRead_LongCurvesStayWithinTolerance uses a parabola too long to be cut in
// one: a chord over dx strays by dx²/4 · 2a, for y = a x².
func TestRead_LongCurvesStayWithinTolerance(t *testing.T) {
	points := read(t, drawing(`<path d="M 0 0 Q 4000 0 8000 8000"/>`), fine).Outlines[0].Points
	for i := 1; i < len(points); i++ {
		dx := points[i].X - points[i-1].X
		if stray := dx * dx / 4 / 8000; stray > 0.001 {
			t.Fatalf("chord %d strays by %g mm down from its curve, want at most 0.001", i, stray)
		}
	}
	if n := len(points); n < 513 || n > 4000 {
		t.Errorf("%d points, want between 513 and 4000", n)
	}
}

func TestRead_File(t *testing.T) {
	f, err := os.Open("testdata/piece.svg")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d, err := svg.Read(f, outline.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, o := range d.Outlines {
		a, layer := math.Abs(area(o)), o.Layer
		got = append(got, fmt.Sprintf("%s %v %.0f", layer, o.Closed, a))
	}
	want := []string{"cut true 800", "cut true 100", "cut true 200", "cut true 312", "fold lines false 0"}
	if strings.Join(got, "|") != strings.Join(want, "|") {
		t.Errorf("outlines %v, want %v", got, want)
	}
	if len(d.Open) != 1 || d.Open[0].Line != 13 || d.Open[0].From != (geom.Point{Y: 100}) || d.Open[0].To != (geom.Point{X: 200}) {
		t.Errorf("open %+v, want the line of line 13", d.Open)
	}
	if len(d.Skipped) != 1 || d.Skipped[0] != (outline.Skip{What: "text", Count: 1, Line: 14}) {
		t.Errorf("skipped %+v, want the text of line 14", d.Skipped)
	}
}

func TestRead_Sizes(t *testing.T) {
	for _, c := range []struct {
		root string
		unit float64
		want float64 // the length of a line of 10 units
	}{
		{`width="10cm" height="10cm" viewBox="0 0 50 50"`, 0, 20},
		{`width="1in" viewBox="0 0 254 254"`, 0, 1},
		{`height="72pt" viewBox="0 0 10 10"`, 0, 25.4},
		{`width="100mm" height="50mm" viewBox="0 0 100 100"`, 0, 5},
		{`width="100mm" height="50mm" viewBox="0 0 100 100" preserveAspectRatio="none"`, 0, 10},
		{`width="100" height="100" viewBox="0 0 100 100"`, 25.4, 254},
		{``, 2, 20},
		{`width="100mm" viewBox="0 0 100 100"`, 3, 30},
	} {
		d := read(t, `<svg `+c.root+`><line x2="10"/></svg>`, outline.Options{Unit: c.unit})
		p := d.Outlines[0].Points
		if got := p[0].Distance(p[1]); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s, unit %g: %g mm, want %g", c.root, c.unit, got, c.want)
		}
	}
	for _, root := range []string{``, `width="100" height="50"`, `width="100px" viewBox="0 0 9 9"`, `width="100%" viewBox="0 0 9 9"`, `width="100mm"`} {
		_, err := svg.Read(strings.NewReader(`<svg `+root+`/>`), outline.Options{})
		if err == nil || !strings.Contains(err.Error(), "line 1, svg: the drawing does not say its size") || fault.HintOf(err) == "" {
			t.Errorf("%q: error %v, want one that asks for the unit", root, err)
		}
	}
}

func TestRead_SaysWhere(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "line 1: this is no whole SVG drawing"},
		{"<html/>", "line 1, html: an SVG drawing begins with svg"},
		{drawing("<g>"), "line 3: this is no whole SVG drawing"},
		{drawing(`<path d="L 1 2"/>`), "line 2, path d, character 1: a path begins with M"},
		{drawing("\n" + `<path d="M 1 2 L 3 x"/>`), "line 3, path d, character 11: a number is missing"},
		{drawing(`<path d="M 1 2 A 3 3 0 2 0 5 5"/>`), "line 2, path d, character 15: a flag of an arc is 0 or 1"},
		{drawing(`<path d="M 1 2 X 3"/>`), `line 2, path d, character 7: 'X' is no command of a path`},
		{drawing(`<polygon points="1 2 3"/>`), "line 2, polygon points, character 6"},
		{drawing(`<g transform="twist(3)"/>`), `line 2, g transform, character 8: "twist" with 1 numbers`},
		{drawing(`<g transform="scale(3"/>`), "line 2, g transform, character 8: the bracket"},
		{drawing(`<rect width="5%" height="4"/>`), `line 2, rect width: "%" is no unit`},
		{drawing(`<rect width="-5" height="4"/>`), "line 2, rect: a rectangle of -5 by 4"},
		{drawing(`<circle r="0"/>`), "line 2, circle: radii of 0 and 0"},
		{drawing(`<line x2="1e9"/>`), "line 2, line: the place 1e+09, 100 mm lies further out"},
		{drawing(`<path d="M 0 0 A 1e8 1e8 0 0 1 5e7 0"/>`), "line 2: the place"},
		{`<svg viewBox="0 0 0 1"/>`, "line 1, svg viewBox: a size of 0 by 1"},
	} {
		_, err := svg.Read(strings.NewReader(c.text), outline.Options{})
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.text, err, c.want)
		}
	}
}

func TestRead_Limits(t *testing.T) {
	for name, text := range map[string]string{
		"depth":        drawing(strings.Repeat("<g>", 300) + strings.Repeat("</g>", 300)),
		"bytes":        "<svg>" + strings.Repeat(" ", outline.MaxBytes),
		"one stroke":   drawing(`<path d="M 0 0` + strings.Repeat("A 8e6 8e6 0 0 1 7e6 0 A 8e6 8e6 0 0 1 0 0", 20) + `"/>`),
		"many strokes": drawing(strings.Repeat(`<circle cx="0" cy="0" r="9e6"/>`, 20)),
	} {
		if _, err := svg.Read(strings.NewReader(text), outline.Options{Unit: 1, Flatten: 0.001}); fault.KindOf(err) != fault.TooLarge {
			t.Errorf("%s: error %v, want too large", name, err)
		}
	}
}

var pieces = []outline.Outline{
	{Layer: "cut & sew", Closed: true, Points: []geom.Point{{X: -20, Y: 0}, {X: 100.5, Y: 0}, {X: 100.5, Y: 40.0625}}},
	{Layer: "cut & sew", Points: []geom.Point{{X: 1, Y: 2}, {X: 3, Y: 4}}},
	{Layer: "fold", Closed: true, Points: []geom.Point{{X: 5, Y: 5}, {X: 6, Y: 5}, {X: 6, Y: 6}}},
}

func TestWrite_ReadsBack(t *testing.T) {
	for _, paper := range []svg.Paper{{}, {Margin: 10}, {CheckBar: true}} {
		var b bytes.Buffer
		if err := svg.Write(&b, outline.Plan{Outlines: pieces}, paper); err != nil {
			t.Fatal(err)
		}
		d := read(t, b.String(), outline.Options{})
		if len(d.Outlines) < len(pieces) {
			t.Fatalf("%+v: %d outlines, want %d or more", paper, len(d.Outlines), len(pieces))
		}
		by := d.Outlines[0].Points[0].Sub(pieces[0].Points[0])
		for i, want := range pieces {
			got := d.Outlines[i]
			if got.Layer != want.Layer || got.Closed != want.Closed || len(got.Points) != len(want.Points) {
				t.Errorf("%+v: reads back %+v, want %+v", paper, got, want)
				continue
			}
			for j, p := range want.Points {
				if got.Points[j].Sub(by).Distance(p) > 2e-4 {
					t.Errorf("%+v: outline %d, point %d is %v, want %v moved by %v", paper, i, j, got.Points[j], p, by)
				}
			}
		}
		if bar := d.Outlines[len(d.Outlines)-1]; paper.CheckBar && bar.Layer != svg.CheckBar {
			t.Errorf("the last layer is %q, want the bar", bar.Layer)
		}
	}
}

func TestWrite_TheBarIs100Millimetres(t *testing.T) {
	var b bytes.Buffer
	if err := svg.Write(&b, outline.Plan{}, svg.Paper{CheckBar: true}); err != nil {
		t.Fatal(err)
	}
	longest := 0.0
	for _, o := range read(t, b.String(), outline.Options{Join: -1}).Outlines {
		longest = max(longest, o.Points[0].Distance(o.Points[1]))
	}
	if math.Abs(longest-100) > 1e-9 {
		t.Errorf("the bar is %g mm, want 100", longest)
	}
}

// FuzzRead: run it with -fuzzminimizetime 1x. Go's own shrinking of every new
// input, which reports nothing meanwhile, is what looks like heavy inputs; the
// reader itself keeps above 25,000 a second.
func FuzzRead(f *testing.F) {
	text, err := os.ReadFile("testdata/piece.svg")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(text))
	f.Add(drawing(`<path d="M40 50a10 10 0 1120 0S1 2 3 4T5e1 6zl7-.8.9 1q1 2 3 4"/><rect width="5" height="6pt" rx="2"/><ellipse rx="3" ry="1" transform="skewX(3)matrix(1 2 3 4 5 6)"/>`))
	f.Fuzz(func(t *testing.T, text string) {
		d, err := svg.Read(strings.NewReader(text), outline.Options{Unit: 1, Flatten: 1})
		if err != nil {
			if k := fault.KindOf(err); k != fault.Invalid && k != fault.TooLarge || !strings.Contains(err.Error(), "line ") {
				t.Fatalf("error without kind or place: %v", err)
			}
			return
		}
		for _, o := range d.Outlines {
			if len(o.Points) < 2 || o.Closed && len(o.Points) < 3 || o.Line < 1 {
				t.Fatalf("an outline that is none: %+v", o)
			}
		}
		if err := svg.Write(&bytes.Buffer{}, outline.Plan{Outlines: d.Outlines}, svg.Paper{CheckBar: true}); err != nil {
			t.Fatalf("what was read cannot be written: %v", err)
		}
	})
}

// BenchmarkRead reads ten thousand paths of lines, a curve and an arc.
func BenchmarkRead(b *testing.B) {
	text := drawing(strings.Repeat(`<path d="M10.5 10h20l5 5 1-3c3 4 5 6 7 8s9 10 11 12a10 10 0 0 1 20 0z"/>`, 10_000))
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := svg.Read(strings.NewReader(text), outline.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleWrite() {
	_ = svg.Write(os.Stdout, outline.Plan{Outlines: []outline.Outline{{Layer: "cut", Closed: true, Points: []geom.Point{{X: 0, Y: 0}, {X: 60, Y: 0}, {X: 60, Y: 40}}}}}, svg.Paper{Margin: 5})
	// Output:
	// <svg xmlns="http://www.w3.org/2000/svg" width="70mm" height="50mm" viewBox="0 0 70 50" fill="none" stroke="#000" stroke-width="0.2">
	// <g data-layer="cut">
	// <path d="M 5 45 L 65 45 L 65 5 Z"/>
	// </g>
	// </svg>
}
