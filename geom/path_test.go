package geom_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom"
)

func parse(t *testing.T, text string) geom.Path {
	t.Helper()
	p, err := geom.ParsePath(text)
	if err != nil {
		t.Fatalf("ParsePath(%q): %v", text, err)
	}
	return p
}

// circle returns a circle of four cubics, the usual approximation with
// k = 0.5522847498, whose radius is right to 2.8 parts in 10,000.
func circle(cx, cy, r float64) string {
	k := r * 0.5522847498
	return fmt.Sprintf("M %f %f C %f %f %f %f %f %f C %f %f %f %f %f %f C %f %f %f %f %f %f C %f %f %f %f %f %f Z",
		cx+r, cy, cx+r, cy+k, cx+k, cy+r, cx, cy+r, cx-k, cy+r, cx-r, cy+k, cx-r, cy,
		cx-r, cy-k, cx-k, cy-r, cx, cy-r, cx+k, cy-r, cx+r, cy-k, cx+r, cy)
}

func TestParsePath_WritesBack(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", ""},
		{" \n", ""},
		{"M 1 2 L 3 4 Z", "M 1 2 L 3 4 Z"},
		{"M1,2L3,4Z", "M 1 2 L 3 4 Z"},
		{"M1-2.5L.5+4", "M 1 -2.5 L 0.5 4"},
		{"M 0 0 10 0 10 5 Z", "M 0 0 L 10 0 L 10 5 Z"},
		{"M 0 0 L 1 0 2 0", "M 0 0 L 1 0 L 2 0"},
		{"M 0 0 C 0 1 1 2 2 2", "M 0 0 C 0 1 1 2 2 2"},
		{"M 0 0 Q 3 0 3 3", "M 0 0 C 2 0 3 1 3 3"},
		{"M 0 0 Z M 5 5 Z", "M 0 0 Z M 5 5 Z"},
	} {
		if got := parse(t, c.text).String(); got != c.want {
			t.Errorf("ParsePath(%q) writes back as %q, want %q", c.text, got, c.want)
		}
	}
}

func TestParsePath_SaysWhere(t *testing.T) {
	for _, c := range []struct{ text, where string }{
		{"L 1 2", "character 1"},
		{"Z", "character 1"},
		{"M 1 2 l 3 4", "character 7"},
		{"M 1 2 A 3 3 0 0 1 9 9", "character 7"},
		{"M 1", "character 4"},
		{"M 1 2 C 1 2 3 4 5", "character 18"},
		{"M 1 2 L 1e3 4", "character 10"},
		{"M 1 2 L - 4", "character 9"},
		{"M 1 2 Z L 3 4", "character 9"},
		{"M 99999999 2", "character 3"},
		{"M 1 2 Z Z", "character 9"},
		{"M NaN 2", "character 3"},
	} {
		_, err := geom.ParsePath(c.text)
		if err == nil || !strings.Contains(err.Error(), c.where+":") {
			t.Errorf("ParsePath(%q) error = %v, want one at %s", c.text, err, c.where)
		}
		if fault.KindOf(err) != fault.Invalid {
			t.Errorf("ParsePath(%q) kind = %v, want invalid", c.text, fault.KindOf(err))
		}
	}
}

func TestPath_Closed(t *testing.T) {
	for text, want := range map[string]bool{"": false, "M 0 0 L 1 0": false, "M 0 0 L 1 1 Z": true, "M 0 0 L 1 1 Z M 2 2 L 3 3": false} {
		if got := parse(t, text).Closed(); got != want {
			t.Errorf("Closed(%q) = %v, want %v", text, got, want)
		}
	}
}

func TestPath_AreaAndCentroid(t *testing.T) {
	for _, c := range []struct {
		name, text string
		area       float64
		centre     geom.Point
		within     float64
	}{
		{"rectangle", "M 10 20 L 30 20 L 30 50 L 10 50 Z", 600, geom.Point{X: 20, Y: 35}, 1e-9},
		{"the other way round", "M 10 20 L 10 50 L 30 50 L 30 20 Z", 600, geom.Point{X: 20, Y: 35}, 1e-9},
		{"triangle, left open", "M 0 0 L 6 0 L 0 3", 9, geom.Point{X: 2, Y: 1}, 1e-9},
		{"square with a hole", "M 0 0 L 4 0 L 4 4 L 0 4 Z M 0 0 L 0 2 L 2 2 L 2 0 Z", 12, geom.Point{X: 14.0 / 6, Y: 14.0 / 6}, 1e-9},
		// Under y = x² from 0 to 1: area 1/3, centroid (3/4, 3/10).
		{"parabola", "M 0 0 Q 0.5 0 1 1 L 1 0 Z", 1.0 / 3, geom.Point{X: 0.75, Y: 0.3}, 1e-9},
		// Under y = x³ from 0 to 1: area 1/4, centroid (4/5, 2/7).
		{"cubic", "M 0 0 C 0.333333333333333 0 0.666666666666667 0 1 1 L 1 0 Z", 0.25, geom.Point{X: 0.8, Y: 2.0 / 7}, 1e-9},
		{"circle far from the origin", circle(100_000, -50_000, 300), math.Pi * 90_000, geom.Point{X: 100_000, Y: -50_000}, 90},
		{"no area", "M 0 0 L 4 2 Z", 0, geom.Point{X: 2, Y: 1}, 1e-9},
		{"empty", "", 0, geom.Point{}, 0},
	} {
		p := parse(t, c.text)
		if got := p.Area(); math.Abs(got-c.area) > c.within {
			t.Errorf("%s: area = %v, want %v", c.name, got, c.area)
		}
		if got := p.Centroid(); got.Distance(c.centre) > max(1e-6, c.within*1e-9) {
			t.Errorf("%s: centroid = %v, want %v", c.name, got, c.centre)
		}
	}
}

func TestPath_BoundsFollowTheCurve(t *testing.T) {
	for _, c := range []struct {
		text string
		want geom.Box
	}{
		{"M 1 2 L -3 5", geom.Box{Min: geom.Point{X: -3, Y: 2}, Max: geom.Point{X: 1, Y: 5}}},
		{"M 0 0 Q 1 2 2 0", geom.Box{Max: geom.Point{X: 2, Y: 1}}},
		{"M 0 0 C 0 4 3 4 3 0", geom.Box{Max: geom.Point{X: 3, Y: 3}}},
		{"M 0 0 C 4 0 -1 3 3 3", geom.Box{Max: geom.Point{X: 3, Y: 3}}},
		{circle(5, 7, 2), geom.Box{Min: geom.Point{X: 3, Y: 5}, Max: geom.Point{X: 7, Y: 9}}},
	} {
		got := parse(t, c.text).Bounds()
		if got.Min.Distance(c.want.Min) > 1e-6 || got.Max.Distance(c.want.Max) > 1e-6 {
			t.Errorf("Bounds(%q) = %v, want %v", c.text, got, c.want)
		}
	}
}

func TestPath_FlattenStaysWithinTolerance(t *testing.T) {
	const r = 500.0
	for _, tolerance := range []float64{10, 1, 0.5} {
		line := parse(t, circle(0, 0, r)).Flatten(tolerance)[0]
		for i, a := range line {
			b := line[(i+1)%len(line)]
			// The four-cubic circle itself strays by 0.00028 r.
			sag := r - math.Hypot(a.X+b.X, a.Y+b.Y)/2
			if sag > tolerance+0.0003*r {
				t.Errorf("tolerance %v: chord %d strays by %v", tolerance, i, sag)
			}
		}
		if len(line) > 200 {
			t.Errorf("tolerance %v: %d points, want fewer", tolerance, len(line))
		}
	}
}

func TestPath_FlattenDoesNotRepeatTheStart(t *testing.T) {
	for text, want := range map[string]int{"M 0 0 L 1 0 L 1 1 Z": 3, "M 0 0 L 1 0 L 1 1 L 0 0 Z": 3, "M 0 0 L 1 0 L 1 1": 3, "M 2 2 Z": 1} {
		if got := len(parse(t, text).Flatten(0.1)[0]); got != want {
			t.Errorf("Flatten(%q) has %d points, want %d", text, got, want)
		}
	}
}

func TestPath_ContainsAndDistance(t *testing.T) {
	ring := circle(0, 0, 100) + " M 40 0 L 0 -40 L -40 0 L 0 40 Z"
	for _, c := range []struct {
		text     string
		at       geom.Point
		inside   bool
		distance float64
	}{
		{circle(0, 0, 100), geom.Point{X: 99.5}, true, 0},
		{circle(0, 0, 100), geom.Point{X: 70.5, Y: 70.5}, true, 0},
		{circle(0, 0, 100), geom.Point{X: 100, Y: 100}, false, 41.42},
		{circle(0, 0, 100), geom.Point{X: 130}, false, 30},
		{ring, geom.Point{X: 60}, true, 0},
		{ring, geom.Point{}, false, 28.28},
		{"M 0 0 L 10 0", geom.Point{X: 5, Y: 3}, false, 3},
		{"", geom.Point{}, false, math.Inf(1)},
	} {
		p := parse(t, c.text)
		if got := p.Contains(c.at); got != c.inside {
			t.Errorf("Contains(%v) of %.20q… = %v, want %v", c.at, c.text, got, c.inside)
		}
		if got := p.Distance(c.at); got != c.distance && math.Abs(got-c.distance) > 0.05 {
			t.Errorf("Distance(%v) of %.20q… = %v, want %v", c.at, c.text, got, c.distance)
		}
	}
}

func TestBox(t *testing.T) {
	b := geom.Box{Max: geom.Point{X: 4, Y: 2}}.Union(geom.Box{Min: geom.Point{X: -1, Y: 1}, Max: geom.Point{X: 0, Y: 5}})
	if b.Width() != 5 || b.Height() != 5 {
		t.Errorf("union is %v by %v, want 5 by 5", b.Width(), b.Height())
	}
	if out := (geom.Point{X: -2, Y: 0}); b.Contains(out) || !b.Grow(1).Contains(out) {
		t.Errorf("point %v: in box %v, in grown box %v; want false, true", out, b.Contains(out), b.Grow(1).Contains(out))
	}
}

func FuzzParsePath(f *testing.F) {
	for _, seed := range []string{"M 0 0 L 10 0 Q 5 5 0 10 Z", "M1-2C3 4 5 6 7 8", circle(3, 4, 5), "M 0 0 L 1e9", "Z", "M,,1,,2"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := geom.ParsePath(text)
		if err != nil {
			return
		}
		again, err := geom.ParsePath(p.String())
		if err != nil {
			t.Fatalf("%q writes back as %q, which is refused: %v", text, p, err)
		}
		if again.String() != p.String() {
			t.Fatalf("%q writes back as %q, then as %q", text, p, again)
		}
		box := p.Bounds().Grow(1e-6 * (1 + p.Bounds().Width() + p.Bounds().Height()))
		for _, line := range p.Flatten(1) {
			for _, q := range line {
				if !box.Contains(q) {
					t.Fatalf("%q: %v lies outside the box %v", text, q, box)
				}
			}
		}
	})
}

func ExampleParsePath() {
	p, err := geom.ParsePath("M 0 0 L 600 0 Q 600 400 300 400 L 0 400 Z")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm² in a box %.0f by %.0f mm\n", p.Area(), p.Bounds().Width(), p.Bounds().Height())
	_, err = geom.ParsePath("M 0 0 L 600 0 A 5 5")
	fmt.Println(err)
	// Output:
	// 220000 mm² in a box 600 by 400 mm
	// path, character 15: 'A' is not one of the commands M, L, C, Q and Z
}
