package vehicle

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fettle/geom"
)

// side is a view of 4 by 2 metres with one square panel.
func side(flip bool, pins ...Pin) View {
	return View{ID: "left", Label: "Left side", Plane: "xz", Flip: flip, Box: [4]float64{-1000, -100, 3000, 1900}, Pins: pins,
		Panels:  []Panel{{ID: "P01", Name: "roof", State: "repair", Path: "M 0 0 L 1000 0 L 1000 1000 L 0 1000 Z", Href: "/p/P01", Findings: 2}},
		Details: []Line{{Path: "M -900 0 L 2900 0", Weight: "silhouette", Fill: "none"}}}
}

func draw(t *testing.T, v View) string {
	t.Helper()
	var out strings.Builder
	if err := Draw(v).Render(t.Context(), &out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestAFrameTurnsAxesTheWayAPersonLooks(t *testing.T) {
	for _, c := range []struct {
		name         string
		plane        string
		flip         bool
		rightOf      bool // a point with more of the first axis stands further right
		higherIsUp   bool
		scaleOfWidth float64
	}{
		{"the left side", "xz", false, true, true, 1032},
		{"the right side", "xz", true, false, true, 1032},
		{"from above", "xy", false, true, false, 1032},
		{"the rear", "yz", true, false, true, 1032},
	} {
		v := View{Plane: c.plane, Flip: c.flip, Box: [4]float64{0, 0, 4000, 2000}}
		f, wide, _ := v.fit(20, 0, c.scaleOfWidth, 540)
		a, b := f.at(1000, 500), f.at(1100, 600)
		if (b.X > a.X) != c.rightOf || (b.Y < a.Y) != c.higherIsUp {
			t.Errorf("%s: 1000,500 at %v and 1100,600 at %v", c.name, a, b)
		}
		if got := math.Abs(b.X-a.X) / 100; math.Abs(got-wide/4000) > 1e-9 {
			t.Errorf("%s: %.5f units a mm across, want %.5f", c.name, got, wide/4000)
		}
	}
}

func TestAPanelIsALinkWithItsStateInItsName(t *testing.T) {
	page := draw(t, side(false))
	for _, want := range []string{`href="/p/P01"`, `aria-label="P01 roof, repair, 2 findings"`, `fill="url(#h-repair)"`, "vehicle-ink-silhouette", "vehicle-ground"} {
		if !strings.Contains(page, want) {
			t.Errorf("the drawing lacks %s", want)
		}
	}
	if strings.Contains(page, "style=") || strings.Contains(page, "onclick") {
		t.Error("the content policy refuses inline style and script")
	}
}

func TestFlagsDoNotOverlap(t *testing.T) {
	for _, n := range []int{1, 2, 14, 45, 120} {
		var pins []Pin
		for i := range n {
			// Crowded: most stand within a hand's breadth.
			pins = append(pins, Pin{Number: fmt.Sprintf("F%02d", i), X: 1500 + float64(i*i%37)*4, Y: float64(i * 977 % 1800)})
		}
		l := lay(side(false, pins...))
		if len(l.flags) != n {
			t.Fatalf("%d pins: got %d flags", n, len(l.flags))
		}
		for i, a := range l.flags {
			if a.X < 0 || a.X+flagWide > l.width+1 || a.Y < 0 || a.Y+flagHigh > l.height {
				t.Errorf("%d pins: %s stands off the sheet at %.0f, %.0f of %.0f by %.0f", n, a.Number, a.X, a.Y, l.width, l.height)
			}
			for _, b := range l.flags[:i] {
				if math.Abs(a.X-b.X) < flagWide && math.Abs(a.Y-b.Y) < flagHigh {
					t.Errorf("%d pins: %s and %s overlap", n, a.Number, b.Number)
				}
			}
		}
	}
}

func TestFlagsAreTheSameEveryTime(t *testing.T) {
	v := side(true, Pin{Number: "F01", X: 10, Y: 10}, Pin{Number: "F02", X: 10, Y: 20, Draft: true}, Pin{Number: "F03", X: 10, Y: 1700, Done: true})
	if a, b := draw(t, v), draw(t, v); a != b {
		t.Error("two drawings of the same view differ")
	}
	if page := draw(t, v); !strings.Contains(page, "not kept yet") || !strings.Contains(page, "vehicle-done") {
		t.Error("a draft and a closed finding look like the others")
	}
}

func TestATouchedPointTurnsBackIntoMillimetres(t *testing.T) {
	for _, flip := range []bool{false, true} {
		v := side(flip)
		v.Pick = "/new"
		l := lay(v)
		var ox, oy float64
		if _, err := fmt.Sscan(l.origin(), &ox, &oy); err != nil {
			t.Fatal(err)
		}
		at := l.frame.at(1234, 567)
		x, z := (at.X-ox)/l.frame.k, -(at.Y-oy)/l.frame.k
		if axes := l.axes(); axes != map[bool]string{false: "x+ z-", true: "x- z-"}[flip] {
			t.Errorf("flip %v: got axes %q", flip, axes)
		}
		if flip {
			x = -x
		}
		if math.Abs(x-1234) > 1 || math.Abs(z-567) > 1 {
			t.Errorf("flip %v: got %.1f, %.1f, want 1234, 567", flip, x, z)
		}
	}
}

func TestAPathIsMappedPointByPoint(t *testing.T) {
	f := frame{k: 0.5, box: [4]float64{0, 0, 100, 100}, rise: true}
	got, err := geom.ParsePath(f.path("M 0 0 C 0 50 50 100 100 100 L 100 0 Z"))
	if err != nil {
		t.Fatal(err)
	}
	want := geom.Box{Max: geom.Point{X: 50, Y: 50}}
	if b := got.Bounds(); b != want {
		t.Errorf("got %v, want %v", b, want)
	}
	if f.path("M 0 0 l 5 5") != "" {
		t.Error("a path that cannot be read is drawn")
	}
}

func TestAPanelInTwoColoursHasAFillOfItsOwn(t *testing.T) {
	v := side(false)
	v.Panels[0].State, v.Panels[0].Colour, v.Panels[0].Under, v.Panels[0].Break = "in colour", "#EDE7D6", "#1F4A55", 900
	page := draw(t, v)
	// The box reaches from -100 to 1900, drawn over 516 units below an edge of 20.
	for _, want := range []string{`fill="url(#tone-left-1072-0)"`, `stop-color="#EDE7D6"`, `stop-color="#1F4A55"`, `offset="0.5`} {
		if !strings.Contains(page, want) {
			t.Errorf("the drawing lacks %s", want)
		}
	}
	v.Panels[0].State = "repair"
	if page := draw(t, v); strings.Contains(page, "linearGradient") {
		t.Error("a panel without colour is drawn in colour")
	}
}

// TestAWayAndADotLeadOn: line work and places that are links, above the panels,
// and plain lines in the small drawing.
func TestAWayAndADotLeadOn(t *testing.T) {
	v := side(false)
	v.Ways = []Way{{Line: Line{Path: "M 0 0 L 500 500", Weight: "loom-2"}, Says: "R01, 7.3 mm", Href: "/r/R01", Lit: true}}
	v.Dots = []Dot{{X: 500, Y: 500, Says: "W01 battery", Href: "/w/W01", Draft: true}}
	v.Fill = true
	page := draw(t, v)
	for _, want := range []string{`href="/r/R01"`, `aria-label="R01, 7.3 mm"`, "vehicle-ink-loom-2", `href="/w/W01"`, "vehicle-spot vehicle-draft", "data-fill", `data-axes="x+ z-"`} {
		if !strings.Contains(page, want) {
			t.Errorf("the drawing lacks %s", want)
		}
	}
	var small strings.Builder
	if err := Small(v).Render(t.Context(), &small); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(small.String(), "vehicle-ink-loom-2") || strings.Contains(small.String(), "href") {
		t.Error("the small drawing lacks the way, or leads on")
	}
}
