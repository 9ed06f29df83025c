package outline_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
)

// stroke reads "LAYER x,y x,y …".
func stroke(t *testing.T, text string) outline.Outline {
	t.Helper()
	words := strings.Fields(text)
	o := outline.Outline{Layer: words[0]}
	for _, w := range words[1:] {
		var p geom.Point
		if _, err := fmt.Sscanf(w, "%g,%g", &p.X, &p.Y); err != nil {
			t.Fatal(err)
		}
		o.Points = append(o.Points, p)
	}
	return o
}

func TestDrawing_JoinsEnds(t *testing.T) {
	for _, c := range []struct {
		name    string
		strokes []string
		want    string // outlines: layer, o for closed, points
	}{
		{"in a row", []string{"A 0,0 1,0", "A 1,0 2,0"}, "A-3"},
		{"drawn towards each other", []string{"A 0,0 1,0", "A 2,0 1,0", "A 2,0 3,0"}, "A-4"},
		{"begun in the middle", []string{"A 5,0 6,0", "A 1,0 5,0", "A 6,0 9,0"}, "A-4"},
		{"a ring of three", []string{"A 0,0 9,0", "A 9,9 9,0", "A 0,0 9,9"}, "Ao3"},
		{"one that almost closes", []string{"A 0,0 9,0 9,9 0,0.05"}, "Ao3"},
		{"one too short to close", []string{"A 0,0 0.05,0 0,0.05"}, "A-3"},
		{"a gap too wide", []string{"A 0,0 1,0", "A 1.2,0 2,0"}, "A-2 A-2"},
		{"other layers keep apart", []string{"A 0,0 1,0", "B 1,0 2,0"}, "A-2 B-2"},
		{"the end that touches comes before the near one", []string{"A 0,0 1,0", "A 1.04,0 1.04,5", "A 1,0 2,0"}, "A-3 A-2"},
		{"the nearest of two", []string{"A 0,0 1,0", "A 1.08,0 1.08,5", "A 1.02,0 2,0"}, "A-3 A-2"},
		{"across the edge of a cell", []string{"A -3,0 -0.04,0", "A 0.04,0 2,0"}, "A-3"},
		{"two rings that share a corner", []string{"A 0,0 9,0", "A 9,0 9,9", "A 9,9 0,0", "A 0,0 -9,0", "A -9,0 -9,-9", "A -9,-9 0,0"}, "Ao3 Ao3"},
	} {
		col, err := outline.Collect(outline.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range c.strokes {
			if err := col.Add(stroke(t, s)); err != nil {
				t.Fatal(err)
			}
		}
		var got []string
		for _, o := range col.Drawing().Outlines {
			got = append(got, fmt.Sprintf("%s%c%d", o.Layer, map[bool]rune{true: 'o', false: '-'}[o.Closed], len(o.Points)))
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%s: %s, want %s", c.name, s, c.want)
		}
	}
}

// TestDrawing_ShuffledSidesMakeTheirPolygon cuts a polygon into strokes,
// shuffles and turns them, and wants its area back.
func TestDrawing_ShuffledSidesMakeTheirPolygon(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		n := 3 + r.IntN(200)
		col, _ := outline.Collect(outline.Options{})
		for _, i := range r.Perm(n) {
			a, b := corner(i, n), corner((i+1)%n, n)
			a.X += 0.02 * r.Float64()
			if r.IntN(2) == 0 {
				a, b = b, a
			}
			if err := col.Add(outline.Outline{Points: []geom.Point{a, b}}); err != nil {
				t.Fatal(err)
			}
		}
		d := col.Drawing()
		if len(d.Outlines) != 1 || !d.Outlines[0].Closed || len(d.Outlines[0].Points) != n {
			t.Fatalf("%d sides: %d outlines, open %v", n, len(d.Outlines), d.Open)
		}
		want, got := float64(n)/2*1e6*math.Sin(2*math.Pi/float64(n)), area(d.Outlines[0].Points)
		if math.Abs(got-want) > 60 {
			t.Errorf("%d sides: area %g, want %g", n, got, want)
		}
	}
}

func corner(i, n int) geom.Point {
	s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
	return geom.Point{X: 1000 * c, Y: 1000 * s}
}

func area(points []geom.Point) float64 {
	sum := 0.0
	for i, p := range points {
		sum += p.Cross(points[(i+1)%len(points)]) / 2
	}
	return math.Abs(sum)
}

func TestConic_ASkewedOneStaysWithinTolerance(t *testing.T) {
	m := outline.Affine{A: 3, B: 1, C: -2, D: 0.5, E: 7, F: -4}
	for _, tolerance := range []float64{0.001, 0.1, 5} {
		c := outline.Circle(geom.Point{X: 1, Y: 2}, 40, 0.3, 5).Map(m)
		points := c.Flatten([]geom.Point{c.At(c.From)}, tolerance)
		worst, n := 0.0, len(points)-1
		for i := range n {
			// The tangent at the middle of the step is parallel to the chord: there the curve is furthest from it.
			a, b, q := points[i], points[i+1], c.At(c.From+c.Sweep*(float64(i)+0.5)/float64(n))
			worst = max(worst, math.Abs(b.Sub(a).Cross(q.Sub(a)))/a.Distance(b))
		}
		if worst > tolerance*(1+1e-6) || worst < tolerance/4 {
			t.Errorf("tolerance %g: chords stray by %g with %d pieces", tolerance, worst, n)
		}
	}
}

func TestBulge(t *testing.T) {
	for _, c := range []struct {
		bulge  float64
		middle geom.Point // half way along the arc from 0, 0 to 10, 0: the sagitta is bulge × half the chord
	}{{1, geom.Point{X: 5, Y: -5}}, {-1, geom.Point{X: 5, Y: 5}}, {0.2, geom.Point{X: 5, Y: -1}}, {-3, geom.Point{X: 5, Y: 15}}} {
		a, b := geom.Point{}, geom.Point{X: 10}
		arc := outline.Bulge(a, b, c.bulge)
		for at, want := range map[float64]geom.Point{0: a, 0.5: c.middle, 1: b} {
			if got := arc.At(arc.From + at*arc.Sweep); got.Distance(want) > 1e-9 {
				t.Errorf("bulge %g: at %g it is %v, want %v", c.bulge, at, got, want)
			}
		}
	}
}

func TestCollector_Refuses(t *testing.T) {
	for _, o := range []outline.Options{{Flatten: -1}, {Flatten: math.NaN()}, {Join: math.NaN()}, {Join: 1e-9}, {Join: 101}, {Unit: -1}, {Unit: math.Inf(1)}} {
		if _, err := outline.Collect(o); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%+v: error %v, want invalid", o, err)
		}
	}
	col, _ := outline.Collect(outline.Options{})
	far := outline.Outline{Line: 7, Points: []geom.Point{{}, {X: math.NaN()}}}
	if err := col.Add(far); err == nil || !strings.HasPrefix(err.Error(), "line 7: ") {
		t.Errorf("a point that is no number: %v", err)
	}
	big := outline.Outline{Line: 8, Points: make([]geom.Point, outline.MaxVertices+1)}
	for i := range big.Points {
		big.Points[i].X = float64(i)
	}
	if err := col.Add(big); fault.KindOf(err) != fault.TooLarge || !strings.HasPrefix(err.Error(), "line 8: ") {
		t.Errorf("too many points: %v", err)
	}
}

// BenchmarkDrawing_Heap joins a hundred thousand strokes of which all ends lie
// in one place: the worst for a grid.
func BenchmarkDrawing_Heap(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 2))
	for b.Loop() {
		col, _ := outline.Collect(outline.Options{})
		for range 100_000 {
			p := geom.Point{X: 0.1 * r.Float64(), Y: 0.1 * r.Float64()}
			if err := col.Add(outline.Outline{Points: []geom.Point{p, {X: 5, Y: 5 + r.Float64()}, p.Add(geom.Point{X: 0.001})}}); err != nil {
				b.Fatal(err)
			}
		}
		col.Drawing()
	}
}
