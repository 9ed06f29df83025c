package metal_test

import (
	"math"
	"strings"
	"testing"

	"fettle/geom"
	"fettle/stage/metal"
)

// TestPanel_Places: a boss is stretched at its top and says how thin it gets; a
// sheet that is rolled has no place to work.
func TestPanel_Places(t *testing.T) {
	boss := func(x, y float64) float64 { return 22 * math.Exp(-(x*x+y*y)/(36*36)) }
	p := made(t, plate(boss), metal.PanelAsk{Grade: "DC04", Gauge: mm})
	list := p.Places(3)
	if len(list) == 0 || list[0].Does != metal.Stretch || list[0].Ratio < 1.05 || !strings.Contains(list[0].Says(), "stretch much") {
		t.Fatalf("a boss: %+v", list)
	}
	at := p.Problem.Surface.FaceMiddle(int(list[0].Face))
	if math.Hypot(at.X, at.Y) > 40 || math.Abs(list[0].Gauge*list[0].Ratio-1) > 1e-9 || math.Abs(list[0].From-100) > 42 {
		t.Errorf("its top lies at %.0f, %.0f, %.0f mm from the edge, %.3f mm left of area %.3f", at.X, at.Y, list[0].From, list[0].Gauge, list[0].Ratio)
	}
	for i, a := range list {
		for _, b := range list[:i] {
			if a.Does == b.Does && a.Face == b.Face {
				t.Errorf("one place twice: %+v", a)
			}
		}
	}
	rolled := made(t, plate(func(x, _ float64) float64 { return x * x / 600 }), metal.PanelAsk{Grade: "DC04", Gauge: mm})
	if n := len(rolled.Places(3)); n != 0 || !strings.Contains(rolled.Says(), "rolled and folded") {
		t.Errorf("a rolled sheet: %d places, %s", n, rolled.Says())
	}
	if at := (metal.PanelPlace{Does: metal.Split}).Says(); !strings.Contains(at, "forming limit") {
		t.Error(at)
	}
}

// TestPanel_Joints: a relief cut from the rim into a crown opens on the sheet,
// its edges are about as long as the cut, and one across parts the panel.
func TestPanel_Joints(t *testing.T) {
	m := plate(crown(50))
	p := made(t, m, metal.PanelAsk{Grade: "DC04", Gauge: mm, Cuts: [][]int32{{12, 12 + 25*8}}})
	j := p.Joints()
	if len(j) != 1 || !j[0].Asked || j[0].Opens < 2 || math.Abs(j[0].Sides[0]/j[0].On-1) > 0.12 || math.Abs(j[0].Sides[1]/j[0].Sides[0]-1) > 0.05 {
		t.Errorf("%+v", j)
	}
	parted := made(t, m, metal.PanelAsk{Grade: "DC04", Gauge: mm, Cuts: [][]int32{{12, 12 + 25*24}}})
	parts := parted.Outlines()
	if len(parts) != 2 || parts[0].Area() < parts[1].Area() || math.Abs((parts[0].Area()+parts[1].Area())/p.Outlines()[0].Area()-1) > 0.1 {
		t.Errorf("parts of %.0f and %.0f mm², whole %.0f", parts[0].Area(), parts[1].Area(), p.Outlines()[0].Area())
	}
	if _, err := metal.LayPanel(t.Context(), m, metal.PanelAsk{Grade: "DC04", Gauge: mm, Cuts: [][]int32{{12, 9999}}}); err == nil || !strings.Contains(err.Error(), "cut 1") {
		t.Errorf("a cut to nowhere: %v", err)
	}
}

func TestCutLine(t *testing.T) {
	window := geom.Polygon{Outer: []geom.Point{{}, {X: 100}, {X: 100, Y: 60}, {Y: 60}}, Holes: [][]geom.Point{{{X: 30, Y: 20}, {X: 30, Y: 40}, {X: 70, Y: 40}, {X: 70, Y: 20}}}}
	got, err := metal.CutLine(window, 5*mm)
	if err != nil {
		t.Fatal(err)
	}
	box, hole := got.Bounds(), geom.Polygon{Outer: got.Holes[0]}.Bounds()
	if math.Abs(box.Width()-110) > 0.3 || math.Abs(box.Height()-70) > 0.3 || math.Abs(hole.Width()-30) > 0.3 || math.Abs(hole.Height()-10) > 0.3 {
		t.Errorf("5 mm over: %.1f × %.1f, its window %.1f × %.1f", box.Width(), box.Height(), hole.Width(), hole.Height())
	}
	if same, err := metal.CutLine(window, 0); err != nil || same.Area() != window.Area() {
		t.Errorf("nothing over: %v", err)
	}
}

// TestPanelOrder: what lays the panel flat is the steel; what looks for cuts is
// what the hand does with ease, and never more than the steel bears.
func TestPanelOrder(t *testing.T) {
	p, err := metal.PanelProblem(plate(crown(10)), metal.PanelAsk{Grade: "DC01", Gauge: mm})
	if err != nil {
		t.Fatal(err)
	}
	if o := metal.PanelOrder(p, false); o.Material.Metal == nil || o.Propose {
		t.Errorf("to lay it flat: %+v", o.Material)
	}
	o := metal.PanelOrder(p, true)
	if o.Material.Metal != nil || o.Material.Validate() != nil || o.Material.Tension[0] > p.Material.Metal.Limit(0) || !o.Propose {
		t.Errorf("to look for cuts: %+v", o.Material)
	}
	answer, err := metal.PanelOrder(p, false).Answer(t.Context(), nil)
	if err != nil {
		t.Fatal(err)
	}
	direct := made(t, plate(crown(10)), metal.PanelAsk{Grade: "DC01", Gauge: mm})
	if far := metal.PanelOf(p, *answer.Result).Forming.Worst - direct.Forming.Worst; math.Abs(far) > 1e-4 {
		t.Errorf("as a job it is formed otherwise by %g", far)
	}
}
