package metal_test

import (
	"image"
	"math"
	"strconv"
	"strings"
	"testing"

	"fettle/geom/dxf"
	"fettle/geom/outline"
	"fettle/internal/placetest"
)

// bends of the demo's channel B03: where each is scribed, mm from the edge of
// flange A, and the flat size (TestFold_... holds them to the worked values).
func bendsOf(t *testing.T, b *placetest.Bench) (lines []float64, size, long float64) {
	t.Helper()
	for _, row := range strings.Split(strings.TrimSpace(b.Get(at+"/fold/B03?as=csv").Body), "\n")[1:] {
		cells := strings.Split(row, ",")
		v, err := strconv.ParseFloat(cells[6], 64)
		if err != nil {
			t.Fatal(err)
		}
		lines = append(lines, v)
	}
	now := b.Now(t)
	one := now.Blank("B03")
	return lines, one.Height.Mm(), one.Width.Mm()
}

// fine is how many pixels a millimetre has.
const fine = 8

// TestFoldFile_OneToOne prints a folded blank at true size, renders the page
// back to pixels, and holds a ruler against its bar, its edges and its bends.
func TestFoldFile_OneToOne(t *testing.T) {
	b := bench(t)
	lines, size, long := bendsOf(t, b)
	pages := placetest.Printed(t, b.Get(at+"/fold/B03/file?form=pdf&paper=one").Body, fine)
	if len(pages) != 1 {
		t.Fatalf("%d pages", len(pages))
	}
	m := pages[0]
	if bar := barOf(m); math.Abs(bar-100) > 0.15 {
		t.Errorf("the check bar is %.2f mm", bar)
	}
	want := []float64{0}
	want = append(want, lines...)
	want = append(want, size)
	// The column that crosses most lines of the drawing and nothing else: words
	// and the arrow stand elsewhere.
	found := false
	for x := 0; x < m.Bounds().Dx() && !found; x++ {
		runs := placetest.Ink(func(i int) uint8 { return m.GrayAt(x, i).Y }, m.Bounds().Dy()-30*fine)
		found = fits(runs, want)
	}
	if !found {
		t.Errorf("no column of the page has edges and bends at %v mm", want)
	}
	var wide float64
	for y := range m.Bounds().Dy() - 30*fine {
		runs := placetest.Ink(func(i int) uint8 { return m.GrayAt(i, y).Y }, m.Bounds().Dx())
		if n := len(runs); n > 1 {
			wide = max(wide, (runs[n-1]-runs[0])/fine)
		}
	}
	if math.Abs(wide-long) > 0.3 {
		t.Errorf("along the bends it is %.2f mm on paper, %.2f in truth", wide, long)
	}
}

// fits tells whether runs of ink are the lines that are wanted, from one side.
func fits(runs, want []float64) bool {
	if len(runs) != len(want) {
		return false
	}
	last := runs[len(runs)-1]
	for i := range want {
		if math.Abs((last-runs[len(runs)-1-i])/fine-want[i]) > 0.2 {
			return false
		}
	}
	return true
}

// barOf is the length of the check bar near the foot of a page: what comes
// nearest to 100 mm between two ticks.
func barOf(m *image.Gray) float64 {
	best := math.Inf(1)
	for y := m.Bounds().Dy() - 30*fine; y < m.Bounds().Dy(); y++ {
		runs := placetest.Ink(func(i int) uint8 { return m.GrayAt(i, y).Y }, m.Bounds().Dx())
		if n := len(runs); n > 1 {
			if d := (runs[n-1] - runs[0]) / fine; math.Abs(d-100) < math.Abs(best-100) {
				best = d
			}
		}
	}
	return best
}

// TestFoldFile_DXFReadBack: what another program reads of the file are the cut
// line and the bends where the sketch has them, up and down apart.
func TestFoldFile_DXFReadBack(t *testing.T) {
	b := bench(t)
	lines, size, long := bendsOf(t, b)
	for _, form := range []string{"dxf", "dxf12"} {
		got, err := dxf.Read(strings.NewReader(b.Get(at+"/fold/B03/file?form="+form).Body), outline.Options{Unit: map[string]float64{"dxf12": 1}[form]})
		if err != nil {
			t.Fatal(err)
		}
		var ups, downs int
		for _, o := range got.Outlines {
			switch o.Layer {
			case "CUT":
				box := boundsOf(o)
				if !o.Closed || math.Abs(box[0]-long) > 0.01 || math.Abs(box[1]-size) > 0.06 {
					t.Errorf("%s: the cut line is %.2f × %.2f mm, want %.2f × %.2f", form, box[0], box[1], long, size)
				}
			case "BEND_UP", "BEND_DOWN":
				n := ups + downs
				if y := o.Points[0].Y; math.Abs(y-lines[n]) > 0.06 || o.Points[1].Y != y {
					t.Errorf("%s: bend %d lies at %.2f, want %.1f", form, n+1, y, lines[n])
				}
				if o.Layer == "BEND_UP" {
					ups++
				} else {
					downs++
				}
			}
		}
		if ups != 3 || downs != 1 {
			t.Errorf("%s: %d bends up and %d down, want 3 and 1", form, ups, downs)
		}
	}
}

func boundsOf(o outline.Outline) [2]float64 {
	low, high := o.Points[0], o.Points[0]
	for _, p := range o.Points {
		low.X, low.Y, high.X, high.Y = min(low.X, p.X), min(low.Y, p.Y), max(high.X, p.X), max(high.Y, p.Y)
	}
	return [2]float64{high.X - low.X, high.Y - low.Y}
}

// TestBlank_Bead: what a bead takes stands beside the blank with its working;
// what cannot be is told beside its field.
func TestBlank_Bead(t *testing.T) {
	b := bench(t)
	page := at + "/sheets/blank/B02?bead-width=30&bead-depth=3"
	if got := b.Get(page).Body; !strings.Contains(got, ">0.4 to 0.8<") || !strings.Contains(got, "(8 ÷ 3) × 3.0² ÷ 30.0 = 0.80 mm") {
		t.Error("a bead of 30 × 3 mm is not told")
	}
	if got := b.Get(at + "/sheets/blank/B02?bead-width=10&bead-depth=9").Body; !strings.Contains(errorsIn(got), "no bead is deeper") {
		t.Errorf("a bead that cannot be: %s", errorsIn(got))
	}
}

// TestFold_SpringBack: a strip that was read lets the sketch say how far to
// turn, and nothing is made up without one.
func TestFold_SpringBack(t *testing.T) {
	b := bench(t)
	if got := b.Get(at + "/fold/B03").Body; !strings.Contains(got, "no strip has told") {
		t.Error("spring-back is not told where no strip was read")
	}
	strip := map[string][]string{"strip-id": {"k09"}, "strip-gauge": {"0.9"}, "strip-angle": {"90"}, "strip-radius": {"1"}, "strip-flat": {"100"}, "strip-first": {"51"}, "strip-second": {"50.8"}, "strip-springs": {"2.5"}}
	if got := b.Post(at+"/folds/strip", strip); got.Status != 303 {
		t.Fatalf("%d %s", got.Status, errorsIn(got.Body))
	}
	if got := b.Get(at + "/fold/B03").Body; !strings.Contains(got, "about 2.5° (strip K09): turn the leaf to 92.5°") {
		t.Error("the strip's reading is not told")
	}
	strip["strip-springs"] = []string{"60"}
	if got := b.Post(at+"/folds/strip", strip); got.Status != 422 || !strings.Contains(errorsIn(got.Body), "must be from") {
		t.Errorf("a spring-back that cannot be: %d %s", got.Status, errorsIn(got.Body))
	}
}
