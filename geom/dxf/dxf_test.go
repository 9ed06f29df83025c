package dxf_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/dxf"
	"fettle/geom/outline"
)

// drawing makes a file of entities, each "KIND code value code value …".
func drawing(entities ...string) string {
	return "0\nSECTION\n2\nENTITIES\n" + records(entities) + "0\nENDSEC\n0\nEOF\n"
}

func records(entities []string) string {
	var b strings.Builder
	for _, e := range entities {
		words := strings.Fields(e)
		fmt.Fprintf(&b, "0\n%s\n", words[0])
		for _, w := range words[1:] {
			fmt.Fprintln(&b, w)
		}
	}
	return b.String()
}

var mm = outline.Options{Unit: 1, Flatten: 0.01}

func read(t *testing.T, text string, o outline.Options) outline.Drawing {
	t.Helper()
	d, err := dxf.Read(strings.NewReader(text), o)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// path makes an outline something that geom can measure.
func path(t *testing.T, o outline.Outline) geom.Path {
	t.Helper()
	var b strings.Builder
	for i, p := range o.Points {
		fmt.Fprintf(&b, "%c %f %f ", "ML"[min(i, 1)], p.X, p.Y)
	}
	if o.Closed {
		b.WriteString("Z")
	}
	p, err := geom.ParsePath(b.String())
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestRead_Shapes(t *testing.T) {
	k := math.Sqrt2 / 2
	quarter := fmt.Sprintf("SPLINE 8 A 70 4 71 2 72 6 73 3 40 0 40 0 40 0 40 1 40 1 40 1 41 1 41 %.15f 41 1 10 10 20 0 10 10 20 10 10 0 20 10", k)
	for _, c := range []struct {
		name     string
		entities []string
		area     float64
		box      geom.Box
	}{
		{"square of lines, one backwards", []string{"LINE 8 A 10 0 20 0 11 10 21 0", "LINE 8 A 10 10 20 10 11 10 21 0",
			"LINE 8 A 10 10 20 10 11 0 21 10", "LINE 8 A 10 0 20 10 11 0 21 0.05"}, 100, box(0, 0, 10, 10)},
		{"circle", []string{"CIRCLE 8 A 10 5 20 5 40 5"}, 25 * math.Pi, box(0, 0, 10, 10)},
		{"half a circle and its chord", []string{"ARC 8 A 10 0 20 0 40 5 50 270 51 90", "LINE 8 A 10 0 20 5 11 0 21 -5"}, 12.5 * math.Pi, box(0, -5, 5, 5)},
		{"two bulges make a circle", []string{"LWPOLYLINE 8 A 90 2 70 1 10 0 20 0 42 1 10 10 20 0 42 1"}, 25 * math.Pi, box(0, -5, 10, 5)},
		{"a bulge that turns clockwise", []string{"LWPOLYLINE 8 A 70 1 10 0 20 0 42 -1 10 10 20 0"}, 12.5 * math.Pi, box(0, 0, 10, 5)},
		{"the same from behind", []string{"LWPOLYLINE 8 A 70 1 210 0 220 0 230 -1 10 0 20 0 42 -1 10 10 20 0"}, 12.5 * math.Pi, box(-10, 0, 0, 5)},
		{"old polyline", []string{"POLYLINE 8 A 66 1 70 1", "VERTEX 10 0 20 0", "VERTEX 10 4 20 0", "VERTEX 10 9 20 9 70 16", "VERTEX 10 4 20 3", "SEQEND 8 A"}, 6, box(0, 0, 4, 3)},
		{"ellipse", []string{"ELLIPSE 8 A 10 0 20 0 11 0 21 10 40 0.5 41 0 42 6.283185307179586"}, 50 * math.Pi, box(-5, -10, 5, 10)},
		{"a quarter of an ellipse from behind", []string{"ELLIPSE 8 A 10 0 20 0 11 10 21 0 40 0.5 41 0 42 1.5707963267948966 230 -1", "LINE 8 A 10 0 20 -5 11 0 21 0", "LINE 8 A 10 0 20 0 11 10 21 0"},
			12.5 * math.Pi, box(0, -5, 10, 0)},
		{"a rational quarter of a circle", []string{quarter, "LINE 8 A 10 0 20 10 11 0 21 0", "LINE 8 A 10 0 20 0 11 10 21 0"}, 25 * math.Pi, box(0, 0, 10, 10)},
		{"a cubic under y = x³", []string{"SPLINE 8 A 71 3 40 0 40 0 40 0 40 0 40 1 40 1 40 1 40 1 10 0 20 0 10 3.3333333333 20 0 10 6.6666666667 20 0 10 10 20 10",
			"LINE 8 A 10 10 20 10 11 10 21 0", "LINE 8 A 10 10 20 0 11 0 21 0"}, 25, box(0, 0, 10, 10)},
	} {
		d := read(t, drawing(c.entities...), mm)
		if len(d.Outlines) != 1 || !d.Outlines[0].Closed || len(d.Open) != 0 || d.Outlines[0].Layer != "A" {
			t.Errorf("%s: %d outlines, open %v, want 1 closed on A", c.name, len(d.Outlines), d.Open)
			continue
		}
		p := path(t, d.Outlines[0])
		if got := p.Area(); math.Abs(got-c.area) > 0.3 {
			t.Errorf("%s: area %.3f, want %.3f", c.name, got, c.area)
		}
		if got := p.Bounds(); got.Min.Distance(c.box.Min) > 0.11 || got.Max.Distance(c.box.Max) > 0.11 {
			t.Errorf("%s: box %v, want %v", c.name, got, c.box)
		}
	}
}

func box(a, b, c, d float64) geom.Box {
	return geom.Box{Min: geom.Point{X: a, Y: b}, Max: geom.Point{X: c, Y: d}}
}

// TestRead_ChordsStayWithinTolerance holds arcs against their closed form: the
// middle of a chord strays by the sagitta, and the area of n equal chords of a
// circle is ½ n r² sin(2π/n).
func TestRead_ChordsStayWithinTolerance(t *testing.T) {
	for _, tolerance := range []float64{0.001, 0.01, 0.1, 1} {
		for _, r := range []float64{0.5, 10, 3000} {
			d := read(t, drawing(fmt.Sprintf("CIRCLE 10 0 20 0 40 %g", r)), outline.Options{Unit: 1, Flatten: tolerance})
			points := d.Outlines[0].Points
			worst := 0.0
			for i, a := range points {
				b := points[(i+1)%len(points)]
				worst = max(worst, r-math.Hypot(a.X+b.X, a.Y+b.Y)/2)
			}
			if worst > tolerance*(1+1e-6) || worst < tolerance/4 && len(points) > 8 {
				t.Errorf("r %g, tolerance %g: chords stray by %g with %d points", r, tolerance, worst, len(points))
			}
			n := float64(len(points))
			if got, want := path(t, d.Outlines[0]).Area(), n/2*r*r*math.Sin(2*math.Pi/n); math.Abs(got-want) > 1e-4*max(1, r) {
				t.Errorf("r %g, tolerance %g: area %g, want %g", r, tolerance, got, want)
			}
		}
	}
}

// TestRead_SplineStaysWithinTolerance uses the circle as a rational spline,
// whose true points are known: four quarters of unequal speed.
func TestRead_SplineStaysWithinTolerance(t *testing.T) {
	k := math.Sqrt2 / 2
	const r = 100.0
	var b strings.Builder
	b.WriteString("SPLINE 70 4 71 2")
	for _, u := range []float64{0, 0, 0, 1, 1, 5, 5, 6, 6, 9, 9, 9} {
		fmt.Fprintf(&b, " 40 %g", u)
	}
	for i, q := range [][2]float64{{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}, {1, 0}} {
		fmt.Fprintf(&b, " 41 %.16f 10 %g 20 %g", []float64{1, k}[i%2], r*q[0], r*q[1])
	}
	for _, tolerance := range []float64{0.001, 0.05, 1} {
		d := read(t, drawing(b.String()), outline.Options{Unit: 1, Flatten: tolerance})
		points := d.Outlines[0].Points
		if !d.Outlines[0].Closed {
			t.Fatal("the circle is open")
		}
		for i, p := range points {
			q := points[(i+1)%len(points)]
			if off := math.Abs(math.Hypot(p.X, p.Y) - r); off > 1e-9 {
				t.Fatalf("tolerance %g: point %d lies %g off the circle", tolerance, i, off)
			}
			if sag := r - math.Hypot(p.X+q.X, p.Y+q.Y)/2; sag > tolerance {
				t.Fatalf("tolerance %g: chord %d strays by %g", tolerance, i, sag)
			}
		}
		if most := int(20 * math.Sqrt(r/tolerance)); len(points) > most {
			t.Errorf("tolerance %g: %d points, want at most %d", tolerance, len(points), most)
		}
	}
}

func TestRead_Files(t *testing.T) {
	for _, c := range []struct {
		file     string
		outlines int
		open     int
		area     float64 // of the closed outlines
		layers   string
	}{
		{"blocks.dxf", 5, 0, 4*600 + 2400, "CUT CUT CUT CUT FOLD"},
		{"inches.dxf", 2, 1, 645.16, "CUT NOTCH"},
	} {
		f, err := os.Open("testdata/" + c.file)
		if err != nil {
			t.Fatal(err)
		}
		d, err := dxf.Read(f, outline.Options{})
		f.Close()
		if err != nil {
			t.Fatalf("%s: %v", c.file, err)
		}
		area, layers := 0.0, []string{}
		for _, o := range d.Outlines {
			layers = append(layers, o.Layer)
			if o.Closed {
				area += path(t, o).Area()
			}
		}
		if len(d.Outlines) != c.outlines || len(d.Open) != c.open || math.Abs(area-c.area) > 1e-3 || strings.Join(layers, " ") != c.layers {
			t.Errorf("%s: %d outlines on %v, open %v, area %g; want %d on %s, %d open, %g", c.file, len(d.Outlines), layers, d.Open, area, c.outlines, c.layers, c.open, c.area)
		}
		if len(d.Skipped) != 1 || d.Skipped[0].What != "TEXT" {
			t.Errorf("%s: skipped %v, want a TEXT", c.file, d.Skipped)
		}
	}
}

// TestRead_NestedBlocksShear turns a circle's block by 45° inside one that is
// stretched: no single insert could say that, but the area still grows by the
// determinant and the box by the stretch.
func TestRead_NestedBlocksShear(t *testing.T) {
	blocks := "0\nSECTION\n2\nBLOCKS\n" + records([]string{
		"BLOCK 2 A 10 1 20 0", "LWPOLYLINE 8 0 70 1 10 0 20 0 42 1 10 2 20 0 42 1", "ENDBLK",
		"BLOCK 2 B 10 0 20 0", "INSERT 8 0 2 A 50 45 42 0.5", "ENDBLK"}) + "0\nENDSEC\n"
	d := read(t, blocks+drawing("INSERT 8 CUT 2 B 41 20 42 -10"), mm)
	p := path(t, d.Outlines[0])
	wide, high := 20*math.Sqrt(0.625), 10*math.Sqrt(0.625) // half the box of a 1 by ½ ellipse at 45° is √(5/8)
	if got, want := p.Area(), 100*math.Pi; math.Abs(got-want) > 0.6 || d.Outlines[0].Layer != "CUT" {
		t.Errorf("area %g on %s, want %g on CUT", got, d.Outlines[0].Layer, want)
	}
	if b := p.Bounds(); math.Abs(b.Width()-2*wide) > 0.03 || math.Abs(b.Height()-2*high) > 0.03 {
		t.Errorf("box %g by %g, want %g by %g", b.Width(), b.Height(), 2*wide, 2*high)
	}
}

func TestRead_SaysWhatStaysOpen(t *testing.T) {
	lines := []string{"LINE 8 A 10 0 20 0 11 10 21 0", "LINE 8 A 10 10 20 0 11 10 21 10", "LINE 8 A 10 10 20 10 11 0 21 1"}
	d := read(t, drawing(lines...), mm)
	if len(d.Open) != 1 || d.Open[0] != (outline.Open{Layer: "A", To: geom.Point{Y: 1}, Line: 6}) {
		t.Errorf("open: %+v, want one from 0, 0 to 0, 1 of line 6", d.Open)
	}
	wide := mm
	wide.Join = 1.5
	if d := read(t, drawing(lines...), wide); len(d.Open) != 0 || !d.Outlines[0].Closed {
		t.Errorf("with a reach of 1.5 mm: open %+v, want none", d.Open)
	}
	never := mm
	never.Join = -1
	if d := read(t, drawing(lines...), never); len(d.Open) != 3 {
		t.Errorf("without joining: %d open, want 3", len(d.Open))
	}
}

func TestRead_LinesDrawnTwiceCountOnce(t *testing.T) {
	square := []string{"LINE 10 0 20 0 11 9 21 0", "LINE 10 9 20 0 11 9 21 9", "LINE 10 9 20 9 11 0 21 9", "LINE 10 0 20 9 11 0 21 0"}
	d := read(t, drawing(append(square, square...)...), mm)
	if len(d.Outlines) != 1 || !d.Outlines[0].Closed || len(d.Skipped) != 1 || d.Skipped[0].Count != 4 {
		t.Errorf("%d outlines, skipped %v; want 1 closed, 4 lines drawn twice", len(d.Outlines), d.Skipped)
	}
}

func TestRead_SaysWhere(t *testing.T) {
	loop := "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nB\n" + records([]string{"INSERT 2 B"}) + "0\nENDBLK\n0\nENDSEC\n" + drawing("INSERT 2 B")
	for _, c := range []struct {
		name, text, want string
		o                outline.Options
	}{
		{"no unit", drawing("LINE 10 0 20 0 11 1 21 1"), "$INSUNITS: the drawing does not say its unit", outline.Options{}},
		{"odd unit", "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n0\n0\nENDSEC\n" + drawing(), "line 8, $INSUNITS", outline.Options{}},
		{"empty", "", "line 0: the file ends before EOF", mm},
		{"cut short", "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n5\n20\n", "line 9: the file ends", mm},
		{"no code", "0\nSECTION\nx\nENTITIES\n", `line 3: "x" is not a group code`, mm},
		{"no number", drawing("LINE 10 wide"), `line 8: "wide" is not a number`, mm},
		{"NaN", drawing("LINE 10 NaN"), "line 8", mm},
		{"far away", drawing("LINE 10 0 20 0 11 2e7 21 0"), "line 6: the place", mm},
		{"no radius", drawing("CIRCLE 10 0 20 0"), "line 6: CIRCLE: a radius of 0", mm},
		{"tilted", drawing("CIRCLE 40 1 210 1 230 0"), "line 6: CIRCLE: it does not lie in the plane", mm},
		{"no block", drawing("INSERT 2 B"), `line 6: INSERT: there is no block "B"`, mm},
		{"a block in itself", loop, "nested more than 16 deep", mm},
		{"knots", drawing("SPLINE 71 3 40 0 10 1 20 1"), "line 6: SPLINE: 1 control points and 1 knots", mm},
		{"fit points", drawing("SPLINE 71 3 11 1 21 1"), "line 6: SPLINE: it has no control points", mm},
		{"binary", "0\nSECTION\n\x00", "line 3: this is not a text file", mm},
		{"too many", drawing("INSERT 2 B 70 2000 71 2000") + "", "no block", mm},
		{"tolerance", "", "flatten: a chord may stray", outline.Options{Flatten: 1e-6}},
	} {
		_, err := dxf.Read(strings.NewReader(c.text), c.o)
		if err == nil || !strings.Contains(err.Error(), c.want) || fault.KindOf(err) != fault.Invalid {
			t.Errorf("%s: error %v, want one with %q", c.name, err, c.want)
		}
	}
	if _, err := dxf.Read(strings.NewReader(drawing()), outline.Options{}); fault.HintOf(err) == "" {
		t.Error("a missing unit asks for nothing")
	}
}

func TestRead_Limits(t *testing.T) {
	one := "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nB\n" + records([]string{"LINE 10 0 20 0 11 1 21 1"}) + "0\nENDBLK\n0\nENDSEC\n"
	for _, text := range []string{
		one + drawing("INSERT 2 B 70 2000 71 2000 44 2 45 2"),
		strings.Repeat(" ", outline.MaxBytes+1),
	} {
		if _, err := dxf.Read(strings.NewReader(text), mm); fault.KindOf(err) != fault.TooLarge {
			t.Errorf("error %v, want too large", err)
		}
	}
}

var pieces = []outline.Outline{
	{Layer: "CUT", Closed: true, Points: []geom.Point{{X: 0, Y: 0}, {X: 100.5, Y: 0}, {X: 100.5, Y: -20.0625}}},
	{Layer: "fold é", Points: []geom.Point{{X: 1, Y: 2}, {X: 3, Y: 4}}},
	{Layer: "0", Closed: true, Points: []geom.Point{{X: 5, Y: 5}, {X: 6, Y: 5}, {X: 6, Y: 6}, {X: 5, Y: 6}}},
}

func TestWrite_ReadsBack(t *testing.T) {
	for v, o := range map[dxf.Version]outline.Options{dxf.R12: {Unit: 1}, dxf.R2000: {}} {
		var b bytes.Buffer
		words := []outline.Label{{Layer: "words", Text: "left é 50 %%", At: geom.Point{X: 50, Y: -5}, Height: 4}}
		if err := dxf.Write(&b, outline.Plan{Outlines: pieces, Labels: words}, v); err != nil {
			t.Fatal(err)
		}
		d := read(t, b.String(), o)
		if len(d.Skipped) != 1 || d.Skipped[0].What != "TEXT" || !strings.Contains(b.String(), "\n  1\nleft \\U+00E9 50 % %\n") {
			t.Errorf("version %d: the label is lost: %v", v, d.Skipped)
		}
		for i := range d.Outlines {
			d.Outlines[i].Line = 0
		}
		if got, want := fmt.Sprint(d.Outlines), fmt.Sprint(pieces); got != want {
			t.Errorf("version %d reads back as\n%s, want\n%s", v, got, want)
		}
	}
}

func TestWrite_SaysWhich(t *testing.T) {
	for _, o := range []outline.Outline{
		{Points: []geom.Point{{}}}, {Points: []geom.Point{{}, {X: math.NaN()}}},
		{Layer: "a|b", Points: pieces[0].Points}, {Layer: "a\nb", Points: pieces[0].Points},
	} {
		err := dxf.Write(&bytes.Buffer{}, outline.Plan{Outlines: append(pieces[:1:1], o)}, dxf.R2000)
		if err == nil || !strings.HasPrefix(err.Error(), "outline 2: ") {
			t.Errorf("%v: error %v, want one at outline 2", o, err)
		}
	}
	err := dxf.Write(&bytes.Buffer{}, outline.Plan{Labels: []outline.Label{{Text: "a\nb", Height: 1}}}, dxf.R12)
	if err == nil || !strings.HasPrefix(err.Error(), "label 1: ") {
		t.Errorf("error %v, want one at label 1", err)
	}
}

// FuzzRead: run it with -fuzzminimizetime 1x. Go's own shrinking of every new
// input, which reports nothing meanwhile, is what looks like heavy inputs; the
// reader itself keeps above 25,000 a second.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"blocks.dxf", "inches.dxf"} {
		text, err := os.ReadFile("testdata/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add(drawing("SPLINE 71 2 40 0 40 0 40 0 40 1 40 1 40 1 41 1 41 2 41 1 10 1 20 1 10 2 20 1 10 2 20 2", "ELLIPSE 11 1 40 2 42 3", "ARC 40 1 50 9 51 3"))
	f.Fuzz(func(t *testing.T, text string) {
		d, err := dxf.Read(strings.NewReader(text), outline.Options{Unit: 1, Flatten: 1})
		if err != nil {
			if k := fault.KindOf(err); k != fault.Invalid && k != fault.TooLarge || !strings.Contains(err.Error(), "line ") {
				t.Fatalf("error without kind or place: %v", err)
			}
			return
		}
		open := 0
		for _, o := range d.Outlines {
			if len(o.Points) < 2 || o.Closed && len(o.Points) < 3 || o.Line < 1 {
				t.Fatalf("an outline that is none: %+v", o)
			}
			for _, p := range o.Points {
				if !(math.Abs(p.X) <= 1e7 && math.Abs(p.Y) <= 1e7) {
					t.Fatalf("a point at %v", p)
				}
			}
			if !o.Closed {
				open++
			}
		}
		if open != len(d.Open) {
			t.Fatalf("%d open strokes, %d reported", open, len(d.Open))
		}
	})
}

// BenchmarkRead reads ten thousand outlines of ten corners, one of them bent,
// 2.2 MB.
func BenchmarkRead(b *testing.B) {
	var one strings.Builder
	one.WriteString("LWPOLYLINE 8 CUT 90 10 70 1")
	for i := range 10 {
		fmt.Fprintf(&one, " 10 %d.125 20 %d.25", 10*i, i*i)
	}
	one.WriteString(" 42 0.5")
	text := drawing(strings.Split(strings.Repeat(one.String()+"|", 10_000), "|")[:10_000]...)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := dxf.Read(strings.NewReader(text), mm); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleRead() {
	text := drawing("LWPOLYLINE 8 CUT 90 4 70 1 10 0 20 0 10 60 20 0 10 60 20 40 10 0 20 40")
	_, err := dxf.Read(strings.NewReader(text), outline.Options{})
	fmt.Println(err)
	d, err := dxf.Read(strings.NewReader(text), outline.Options{Unit: 10})
	fmt.Println(d.Outlines[0].Layer, d.Outlines[0].Points[2], err)
	// Output:
	// header, $INSUNITS: the drawing does not say its unit
	// CUT {600 400} <nil>
}
