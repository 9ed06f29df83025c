package drawing_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fettle/geom"
)

// sheet is one drawing file as it stands on disk; README.md says what each
// field means.
type sheet struct {
	Views  []view                `json:"views"`
	Panels map[string][]outlined `json:"panels"`
	Breaks []outlined            `json:"breaks"`
}

type view struct {
	ID      string     `json:"id"`
	Label   string     `json:"label"`
	Plane   string     `json:"plane"`
	Flip    bool       `json:"flip"`
	Box     [4]float64 `json:"box_mm"`
	Details []detail   `json:"details"`
}

type detail struct{ D, Weight, Fill string }

type outlined struct{ View, D string }

// outline is a panel's closed path in one view.
type outline struct {
	panel string
	path  geom.Path
}

func load(t *testing.T, name string) sheet {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var s sheet
	if err := json.Unmarshal(data, &s); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return s
}

func parse(t *testing.T, what, d string) geom.Path {
	t.Helper()
	p, err := geom.ParsePath(d)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	return p
}

// outlines returns the panels of one view in the order of their names.
func (s sheet) outlines(t *testing.T, view string) []outline {
	t.Helper()
	var all []outline
	for _, id := range slices.Sorted(maps.Keys(s.Panels)) {
		for _, o := range s.Panels[id] {
			if o.View == view {
				all = append(all, outline{id, parse(t, id+" in "+view, o.D)})
			}
		}
	}
	return all
}

// vehicles are the two drawings and how many panels each must have.
var vehicles = []struct {
	file, prefix string
	panels       int
}{
	{"pedlar.json", "P", 62},
	{"bjelke.json", "K", 16},
}

func TestDrawing_EveryPanelIsDrawnClosedInsideItsView(t *testing.T) {
	for _, v := range vehicles {
		s := load(t, v.file)
		boxes := map[string]geom.Box{}
		for _, w := range s.Views {
			boxes[w.ID] = geom.Box{Min: geom.Point{X: w.Box[0], Y: w.Box[1]}, Max: geom.Point{X: w.Box[2], Y: w.Box[3]}}
		}
		for i := 1; i <= v.panels; i++ {
			id := fmt.Sprintf("%s%02d", v.prefix, i)
			if len(s.Panels[id]) == 0 {
				t.Errorf("%s: %s is in no view", v.file, id)
			}
			for _, o := range s.Panels[id] {
				p := parse(t, id, o.D)
				box, known := boxes[o.View]
				if !known || !p.Closed() {
					t.Errorf("%s: %s in %q: view known %v, closed %v; want both", v.file, id, o.View, known, p.Closed())
				}
				if b := p.Bounds(); !box.Contains(b.Min) || !box.Contains(b.Max) {
					t.Errorf("%s: %s in %s reaches %v, outside the view's %v", v.file, id, o.View, b, box)
				}
			}
		}
		if len(s.Panels) != v.panels {
			t.Errorf("%s: %d panels, want %d", v.file, len(s.Panels), v.panels)
		}
	}
}

func TestDrawing_ViewsAndDetailsUseTheFormat(t *testing.T) {
	planes := map[string]string{"left": "xz", "right": "xz", "front": "yz", "rear": "yz", "top": "xy", "inside": "xy"}
	order := []string{"left", "right", "front", "rear", "top", "inside"}
	weights := []string{"silhouette", "panel", "detail"}
	fills := []string{"none", "glass", "rubber", "bright"}
	for _, v := range vehicles {
		s := load(t, v.file)
		for i, w := range s.Views {
			if i >= len(order) || w.ID != order[i] || w.Plane != planes[w.ID] || w.Label == "" {
				t.Errorf("%s: view %d is %q %q in plane %q", v.file, i, w.ID, w.Label, w.Plane)
			}
			for j, d := range w.Details {
				parse(t, fmt.Sprintf("%s %s detail %d", v.file, w.ID, j), d.D)
				if !slices.Contains(weights, d.Weight) || !slices.Contains(fills, d.Fill) {
					t.Errorf("%s: %s detail %d has weight %q and fill %q", v.file, w.ID, j, d.Weight, d.Fill)
				}
			}
		}
		if len(s.Views) != len(order) {
			t.Errorf("%s: %d views, want %d", v.file, len(s.Views), len(order))
		}
	}
}

func TestDrawing_ColourBreakFollowsTheSwage(t *testing.T) {
	s := load(t, "pedlar.json")
	breaks := map[string]geom.Path{}
	for _, b := range s.Breaks {
		breaks[b.View] = parse(t, "break in "+b.View, b.D)
	}
	for _, c := range []struct {
		view  string
		x, y  float64
		lower bool
	}{
		{"left", 2000, 975, true}, {"left", 2000, 985, false}, {"right", 1000, 975, true}, {"right", 1000, 985, false},
		{"left", 552, 940, true}, {"left", 552, 1000, false}, {"left", 300, 1100, true}, {"left", 600, 1200, false},
		{"front", 0, 1000, true}, {"front", 0, 1400, false}, {"front", 660, 1060, false},
		{"rear", 300, 975, true}, {"rear", 300, 985, false}, {"top", 0, 0, true}, {"top", 1500, 0, false},
	} {
		if got := breaks[c.view].Contains(geom.Point{X: c.x, Y: c.y}); got != c.lower {
			t.Errorf("%s at %v, %v: lower colour %v, want %v", c.view, c.x, c.y, got, c.lower)
		}
	}
}

func TestDrawing_NumbersHaveOneDecimalAtMost(t *testing.T) {
	long := regexp.MustCompile(`\.\d\d`)
	for _, v := range vehicles {
		data, err := os.ReadFile(v.file)
		if err != nil {
			t.Fatal(err)
		}
		if at := long.FindIndex(data); at != nil {
			t.Errorf("%s: too many decimals near %q", v.file, data[at[0]-8:at[1]])
		}
	}
}

func TestDrawing_SizesAreTheMakers(t *testing.T) {
	for _, c := range []struct {
		file, view string
		min, max   float64 // along the view's first axis
		top        float64 // along its second
	}{
		{"pedlar.json", "left", -560, 3200, 1870},
		{"pedlar.json", "rear", -790, 790, 1870},
		{"pedlar.json", "front", -790, 790, 1870},
		{"bjelke.json", "left", -600, 2800, 1620},
		{"bjelke.json", "rear", -740, 740, 1620},
		{"bjelke.json", "front", -740, 740, 1620},
	} {
		s := load(t, c.file)
		i := slices.IndexFunc(s.Views, func(v view) bool { return v.ID == c.view })
		box := geom.Box{Min: geom.Point{X: 1e6, Y: 1e6}, Max: geom.Point{X: -1e6, Y: -1e6}}
		for _, o := range s.outlines(t, c.view) {
			box = box.Union(o.path.Bounds())
		}
		for _, d := range s.Views[i].Details { // bumpers and lamps, but neither mirrors nor ground
			b := parse(t, "detail", d.D).Bounds()
			if d.Fill == "bright" && c.view == "left" {
				box = box.Union(b)
			}
		}
		if box.Min.X < c.min-6 || box.Min.X > c.min+6 || box.Max.X < c.max-6 || box.Max.X > c.max+6 || box.Max.Y < c.top-4 || box.Max.Y > c.top+4 {
			t.Errorf("%s %s: drawn %v, want %v to %v and %v high", c.file, c.view, box, c.min, c.max, c.top)
		}
	}
}

// rasterStep is the grid, in mm, on which overlap is counted. The narrowest
// panel is 19 mm wide, so a row of samples cannot miss one.
const rasterStep = 5.0

// spans returns for every grid row the stretches of x inside the path, by
// the even-odd rule: outlines and their holes never cross.
func spans(p geom.Path) map[int][][2]float64 {
	crossings := map[int][]float64{}
	for _, line := range p.Flatten(0.2) {
		for i, a := range line {
			b := line[(i+1)%len(line)]
			if a.Y > b.Y {
				a, b = b, a
			}
			for row := int(a.Y/rasterStep) - 1; float64(row)*rasterStep < b.Y; row++ {
				y := float64(row)*rasterStep + 0.013
				if y >= a.Y && y < b.Y {
					crossings[row] = append(crossings[row], a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
				}
			}
		}
	}
	out := map[int][][2]float64{}
	for row, xs := range crossings {
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			out[row] = append(out[row], [2]float64{xs[i], xs[i+1]})
		}
	}
	return out
}

// overlap returns the area, in mm², that two rastered outlines share.
func overlap(a, b map[int][][2]float64) float64 {
	sum := 0.0
	for row, as := range a {
		for _, s := range as {
			for _, r := range b[row] {
				sum += max(0, min(s[1], r[1])-max(s[0], r[0])) * rasterStep
			}
		}
	}
	return sum
}

func TestDrawing_OutlinesDoNotOverlap(t *testing.T) {
	const limit = 0.02
	for _, v := range vehicles {
		s := load(t, v.file)
		for _, w := range s.Views {
			all := s.outlines(t, w.ID)
			rows := make([]map[int][][2]float64, len(all))
			for i, o := range all {
				rows[i] = spans(o.path)
			}
			for i, a := range all {
				for j, b := range all[:i] {
					smaller := min(a.path.Area(), b.path.Area())
					if shared := overlap(rows[i], rows[j]); shared > limit*smaller {
						t.Errorf("%s %s: %s and %s share %.0f mm², %.1f %% of the smaller", v.file, w.ID, b.panel, a.panel, shared, 100*shared/smaller)
					}
				}
			}
		}
	}
}

// TestDrawing_NeighboursShareEdges walks a few seams: the two outlines must
// have no gap above the width of a shut line along them.
func TestDrawing_NeighboursShareEdges(t *testing.T) {
	const shutLine = 6.0
	for _, c := range []struct {
		view, a, b string
		points     int // corners and curve points the two have within a shut line of each other
	}{
		{"left", "P37", "P41", 2}, {"left", "P37", "P39", 2}, {"left", "P11", "P09", 2}, {"left", "P07", "P11", 6},
		{"left", "P17", "P24", 6}, {"left", "P45", "P41", 6}, {"right", "P44", "P61", 4}, {"left", "P01", "P04", 6},
		{"front", "P15", "P17", 5}, {"front", "P21", "P22", 8}, {"rear", "P58", "P59", 2}, {"rear", "P56", "P58", 6},
		{"top", "P01", "P02", 2}, {"top", "P15", "P24", 4}, {"inside", "P49", "P50", 2}, {"inside", "P28", "P35", 2},
	} {
		s := load(t, "pedlar.json")
		paths := map[string]geom.Path{}
		for _, o := range s.outlines(t, c.view) {
			paths[o.panel] = o.path
		}
		near := 0
		for _, line := range paths[c.a].Flatten(0.5) {
			for _, q := range line {
				if paths[c.b].Distance(q) <= shutLine { // overlap is another test's
					near++
				}
			}
		}
		if near < c.points {
			t.Errorf("%s: %s has %d points on the edge of %s, want at least %d", c.view, c.a, near, c.b, c.points)
		}
	}
}

func TestDrawing_SidesAreMirrored(t *testing.T) {
	s := load(t, "pedlar.json")
	for _, pair := range [][2]string{{"P11", "P12"}, {"P17", "P18"}, {"P37", "P38"}, {"P41", "P42"}, {"P45", "P46"}, {"P56", "P57"}} {
		var left, right geom.Path
		for _, o := range s.outlines(t, "left") {
			if o.panel == pair[0] {
				left = o.path
			}
		}
		for _, o := range s.outlines(t, "right") {
			if o.panel == pair[1] {
				right = o.path
			}
		}
		if left.Empty() || left.String() != right.String() {
			t.Errorf("%s on the left and %s on the right differ: both are drawn in (x, z)", pair[0], pair[1])
		}
	}
}

// finding is a place on the vehicle that its panel's outline must reach.
type finding struct {
	id     string
	panels []string
	x, z   float64
}

// reaches says whether a finding can be shown on the outline: in side views
// at (x, z) within 60 mm, in views from above by x within 80 mm, from the
// front and rear by z within 60 mm.
func reaches(view string, p geom.Path, f finding) bool {
	b := p.Bounds()
	switch view {
	case "left", "right":
		return p.Distance(geom.Point{X: f.x, Y: f.z}) <= 60
	case "front", "rear":
		return f.z >= b.Min.Y-60 && f.z <= b.Max.Y+60
	}
	return f.x >= b.Min.X-80 && f.x <= b.Max.X+80
}

func TestDrawing_FindingsLieOnTheirPanels(t *testing.T) {
	s := load(t, "pedlar.json")
	found := scenarioFindings(t)
	if len(found) != 45 {
		t.Fatalf("%d findings in the scenario, want 45", len(found))
	}
	for _, f := range found {
		for _, panel := range f.panels {
			hit := false
			for _, o := range s.Panels[panel] {
				hit = hit || reaches(o.View, parse(t, panel, o.D), f)
			}
			if !hit {
				t.Errorf("%s: %s has no outline near x %.0f, z %.0f", f.id, panel, f.x, f.z)
			}
		}
	}
}

func TestDrawing_SkinsAreInProportion(t *testing.T) {
	s := load(t, "pedlar.json")
	area := scenarioAreas(t)
	for _, id := range strings.Fields("P01 P02 P11 P12 P15 P37 P38 P39 P40 P41 P42 P43 P44 P58 P59") {
		drawn := 0.0
		for _, o := range s.Panels[id] {
			drawn = max(drawn, parse(t, id, o.D).Area()/1e6)
		}
		if ratio := drawn / area[id]; ratio < 0.65 || ratio > 1.35 {
			t.Errorf("%s: drawn %.2f m² for %.2f m² of skin, ratio %.2f; want 0.65 to 1.35", id, drawn, area[id], ratio)
		}
	}
}
