package drawn_test

import (
	"math"
	"testing"

	"fettle/build"
	"fettle/geom"
	"fettle/internal/demo"
	"fettle/internal/drawn"
	"fettle/internal/web/ui/vehicle"
)

// whole is the demo build with every finding of its story.
func whole(t *testing.T) build.Build {
	t.Helper()
	file, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	b := file.Build
	for _, d := range file.Days {
		for _, c := range d.Changes {
			if c.Kind() != "record-finding" {
				continue
			}
			if err := c.Apply(&b); err != nil {
				t.Fatal(err)
			}
		}
	}
	return b
}

func TestEveryPanelIsDrawnAndEveryFindingHasOneFlag(t *testing.T) {
	b := whole(t)
	views := drawn.Views(&b, drawn.Options{Base: "/b/pedlar/metal"})
	panels, flags := map[string]bool{}, map[string]int{}
	for _, v := range views {
		for _, p := range v.Panels {
			panels[p.ID] = true
		}
		for _, p := range v.Pins {
			flags[p.Number]++
		}
	}
	if len(panels) != 62 || len(flags) != 45 {
		t.Errorf("got %d panels and %d findings, want 62 and 45", len(panels), len(flags))
	}
	for id, n := range flags {
		if n != 1 {
			t.Errorf("%s has %d flags, want 1", id, n)
		}
	}
}

// off is how far a flag may point beside its panel: findings run over edges.
const off = 40

func TestEachFlagPointsAtItsPanel(t *testing.T) {
	b := whole(t)
	for _, v := range drawn.Views(&b, drawn.Options{}) {
		for _, pin := range v.Pins {
			panel := b.Finding(build.FindingID(pin.Number)).Panels[0]
			shape, err := geom.ParsePath(pathOf(v, string(panel)))
			if err != nil || shape.Empty() {
				t.Errorf("%s stands in the view %s, where %s is not drawn", pin.Number, v.ID, panel)
				continue
			}
			if d := shape.Distance(geom.Point{X: pin.X, Y: pin.Y}); d > off {
				t.Errorf("%s points %.0f mm beside %s in the view %s", pin.Number, d, panel, v.ID)
			}
		}
	}
}

func pathOf(v vehicle.View, id string) string {
	for _, p := range v.Panels {
		if p.ID == id {
			return p.Path
		}
	}
	return ""
}

func TestSidesComeFirst(t *testing.T) {
	b := whole(t)
	for _, c := range []struct {
		panel build.PanelID
		want  string
	}{{"P11", "left"}, {"P12", "right"}, {"P02", "left"}, {"P21", "front"}, {"P58", "rear"}, {"P50", "inside"}, {"P57", "right"}} {
		if got := drawn.Shows(&b, b.Panel(c.panel)); got != c.want {
			t.Errorf("%s shows in %q, want %q", c.panel, got, c.want)
		}
	}
}

func TestTheMiddleOfAPanelLiesOnIt(t *testing.T) {
	b := whole(t)
	for i := range b.Panels {
		p := &b.Panels[i]
		if drawn.Shows(&b, p) != "left" && drawn.Shows(&b, p) != "right" {
			continue
		}
		x, z := drawn.Middle(&b, p)
		for _, o := range p.Outlines {
			if o.View != drawn.Shows(&b, p) {
				continue
			}
			shape, err := geom.ParsePath(o.Path)
			if err != nil {
				t.Fatal(err)
			}
			if d := shape.Distance(geom.Point{X: x, Y: z}); d > 1 || math.IsNaN(d) {
				t.Errorf("%s: the middle %.0f, %.0f lies %.0f mm off it", p.ID, x, z, d)
			}
		}
	}
}

func TestWhatIsNotKeptIsDrawnAsSuch(t *testing.T) {
	b := whole(t)
	kept := b.Clone()
	kept.Findings = kept.Findings[:31]
	n := 0
	for _, v := range drawn.Views(&b, drawn.Options{Kept: &kept}) {
		for _, p := range v.Pins {
			if p.Draft != (p.Number > "F31") {
				t.Errorf("%s: draft is %v", p.Number, p.Draft)
			}
			if p.Draft {
				n++
			}
		}
	}
	if n != 14 {
		t.Errorf("got %d drafts, want 14", n)
	}
}

func TestTwoTonePanelsChangeColourAtTheBreak(t *testing.T) {
	b := whole(t)
	for i := range b.Panels {
		b.Panels[i].State = build.InColour
	}
	for _, v := range drawn.Views(&b, drawn.Options{}) {
		for _, p := range v.Panels {
			want := map[string]string{"P09": "#1F4A55", "P12": "#1F4A55", "P58": "#1F4A55"}[p.ID]
			if want != "" && (p.Under != want || p.Colour != "#EDE7D6" || p.Break != 980) {
				t.Errorf("%s in %s: got %s over %s at %.0f, want #EDE7D6 over %s at 980", p.ID, v.ID, p.Colour, p.Under, p.Break, want)
			}
			// The wing has Limewash in its jamb only, which is not seen.
			if p.ID == "P17" && (p.Colour != "#1F4A55" || p.Under != "") {
				t.Errorf("P17: got %s over %q, want one colour", p.Colour, p.Under)
			}
		}
	}
}

func TestAFinishedTaskTakesItsFlagsDown(t *testing.T) {
	b := whole(t)
	for i := range b.Tasks {
		if b.Tasks[i].ID == "T08" {
			b.Tasks[i].State = build.Finished
		}
	}
	n := 0
	for _, v := range drawn.Views(&b, drawn.Options{Open: true}) {
		n += len(v.Pins)
	}
	want := 0
	for _, f := range b.Findings {
		if f.Task != "T08" {
			want++
		}
	}
	if n != want || want == 45 {
		t.Errorf("got %d flags, want %d", n, want)
	}
}

func TestABadgeStandsOnItsPanel(t *testing.T) {
	b := whole(t)
	badges := map[build.PanelID]drawn.Badge{}
	for _, p := range b.Panels {
		badges[p.ID] = drawn.Badge{Word: "open", Says: "says", Href: "/there"}
	}
	n := 0
	for _, v := range drawn.Views(&b, drawn.Options{Badges: badges}) {
		for _, g := range v.Badges {
			n++
			shape, err := geom.ParsePath(pathOf(v, g.Panel))
			if err != nil {
				t.Fatal(err)
			}
			if d := shape.Distance(geom.Point{X: g.X, Y: g.Y}); d > 1 {
				t.Errorf("the badge of %s stands %.0f mm beside it in the view %s", g.Panel, d, v.ID)
			}
		}
		if len(v.Badges) != len(v.Panels) {
			t.Errorf("%s: %d badges on %d panels", v.ID, len(v.Badges), len(v.Panels))
		}
	}
	if n < 62 {
		t.Errorf("%d badges", n)
	}
}
