package trim

import (
	"math"
	"net/url"
	"strings"
	"testing"

	"fettle/build"
	"fettle/geom"
	"fettle/geom/dxf"
	"fettle/geom/outline"
	"fettle/geom/svg"
	"fettle/internal/live"
	"fettle/internal/placetest"
	stage "fettle/stage/trim"
)

// patterned is the shop with the cushion kept as the pattern of T01.
func patterned(t *testing.T) *placetest.Bench {
	t.Helper()
	b := flatBench(t)
	form := url.Values{"material": {"leather"}, "piece": {"T01"}, "part": {"1"}, "why": {""}}
	if b.Get("/b/pedlar/trim/pattern/T01").Status == 200 {
		form.Set("why", "laid flat from the buck")
	}
	if a := b.Post(cushion+"/keep", form); a.Status != 303 {
		t.Fatalf("status %d: %.400s", a.Status, a.Body)
	}
	keepAll(t, b)
	return b
}

// keepAll keeps the slip and clears it, as the knock-on does.
func keepAll(t *testing.T, b *placetest.Bench) {
	t.Helper()
	b.KeepSlip(t)
	if err := b.Desk.Shop.SaveSlip(t.Context(), b.Name, b.Person.Code, live.Slip{}); err != nil {
		t.Fatal(err)
	}
}

func TestPattern_KeptFromASurface(t *testing.T) {
	b := patterned(t)
	holds(t, b.Get("/b/pedlar/trim/patterns"), 200, "surface U1", "T01", "PDF on A4")
	holds(t, b.Get("/b/pedlar/trim/pattern/T01"), 200, "cut line", "sewn line", "plain", "Revisions", "patt-cut", "edge")
	now := b.Now(t)
	p := now.Pattern("T01")
	if got := now.Piece("T01").Shape; len(got.Outer) < 8 || got.Area() <= p.Cut.Area()-1 || len(p.Edges) != 4 {
		t.Errorf("the piece has %d corners, %d edges", len(got.Outer), len(p.Edges))
	}
	a := b.Post("/b/pedlar/trim/pattern/T01/edges", url.Values{"name-a": {"front"}, "name-b": {"b"}, "name-c": {"c"}, "name-d": {"d"}, "seam-a": {"piped"}, "allow-a": {"15"}, "seam-b": {"hem"}, "allow-b": {""}, "seam-c": {"raw"}, "seam-d": {"plain"}, "why": {"front is piped"}})
	if a.Status != 303 {
		t.Fatalf("status %d: %s", a.Status, a.Body)
	}
	keepAll(t, b)
	holds(t, b.Get("/b/pedlar/trim/pattern/T01"), 200, "edge front: piped 15", "front is piped", "cut area", "laid")
	holds(t, b.Post("/b/pedlar/trim/pattern/T01/edges", url.Values{"seam-front": {"glued"}, "why": {""}}), 422, "must be one of", "is empty")
	holds(t, b.Get("/b/pedlar/trim/pattern/T33"), 200, "no pattern yet", "Sewn line")
	holds(t, b.Get("/b/pedlar/trim/pattern/T33/file"), 404, "no pattern yet")
}

// kept is the pattern of T01 that counts.
func kept(t *testing.T, b *placetest.Bench) *build.Pattern {
	now := b.Now(t)
	return now.Pattern("T01")
}

// TestPatterns_ByMaterial: a heading stands once, and a mirror image behind its
// piece.
func TestPatterns_ByMaterial(t *testing.T) {
	b := flatBench(t)
	now := b.Now(t)
	sheets, err := stage.PatternSheets(&now)
	if err != nil {
		t.Fatal(err)
	}
	for i, one := range sheets {
		if one.Mirrored && sheets[i-1].Piece.ID != one.Piece.ID {
			t.Errorf("%s stands behind %s", one.Drawn.Piece, sheets[i-1].Drawn.Piece)
		}
	}
	page := setPage{sheet: sheet{Build: &now}, Sheets: sheets}
	seen, last := map[string]bool{}, ""
	for _, row := range page.list().Rows {
		if row.Group != last && seen[row.Group] {
			t.Errorf("%q is a heading twice", row.Group)
		}
		last = row.Group
		seen[last] = true
	}
	if len(seen) < 3 {
		t.Errorf("%d materials", len(seen))
	}
}

func TestPattern_Refused(t *testing.T) {
	b := flatBench(t)
	form := url.Values{"material": {"leather"}, "piece": {"T99"}, "part": {"7"}, "why": {""}}
	holds(t, b.Post(cushion+"/keep", form), 422, "is none of the pieces", "must be from 1 to 1")
}

func TestPattern_Files(t *testing.T) {
	b := patterned(t)
	at := "/b/pedlar/trim/pattern/T01/file?form="
	want := geom.Polygon{Outer: kept(t, b).Cut.Polygon().Outer}.Bounds()
	drawn, err := dxf.Read(strings.NewReader(b.Get(at+"dxf").Body), outline.Options{})
	if err != nil {
		t.Fatal(err)
	}
	lines, err := svg.Read(strings.NewReader(b.Get(at+"svg").Body), outline.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for name, plan := range map[string][]geom.Point{"dxf": drawn.Outlines[0].Points, "svg": lines.Outlines[0].Points} {
		got := geom.Polygon{Outer: plan}.Bounds()
		if math.Abs(got.Width()-want.Width()) > 0.01 || math.Abs(got.Height()-want.Height()) > 0.01 {
			t.Errorf("%s: %.2f × %.2f mm, want %.2f × %.2f", name, got.Width(), got.Height(), want.Width(), want.Height())
		}
	}
	if a := b.Get("/b/pedlar/trim/patterns/file?form=pdf&paper=a3"); a.Status != 200 || !strings.HasPrefix(a.Body, "%PDF") {
		t.Errorf("the set: %d", a.Status)
	}
	if a := b.Get(at + "stone"); a.Status != 422 {
		t.Errorf("a form that is none: %d", a.Status)
	}
}

// fine is how many pixels of a rendered page a millimetre has.
const fine = 10

// ink is the first and the last middle of dark runs along a line of pixels, mm.
func ink(at func(i int) uint8, n int) (first, last float64) {
	runs := placetest.Ink(at, n)
	if len(runs) == 0 {
		return -1, -1
	}
	return runs[0] / fine, runs[len(runs)-1] / fine
}

// TestPattern_OneToOne prints a pattern, renders the page back to pixels and
// holds a ruler against its bar and its edges.
func TestPattern_OneToOne(t *testing.T) {
	b := patterned(t)
	m := placetest.Printed(t, b.Get("/b/pedlar/trim/pattern/T01/file?form=pdf&paper=one").Body, fine)[0]
	w, h := m.Bounds().Dx(), m.Bounds().Dy()
	row := func(y int) (float64, float64) { return ink(func(x int) uint8 { return m.GrayAt(x, y).Y }, w) }
	var bar float64
	for y := h - 25*fine; y < h; y++ {
		// Where both end ticks are crossed, above the bar and the small ticks.
		if a, z := row(y); a >= 0 && math.Abs(z-a-100) < math.Abs(bar-100) {
			bar = z - a
		}
	}
	if math.Abs(bar-100) > 0.1 {
		t.Errorf("the check bar is %.2f mm from end to end", bar)
	}
	line := kept(t, b).Cut.Polygon().Outer
	box := geom.Polygon{Outer: line}.Bounds()
	// The page's own corner of the drawing, by its extent; then every level
	// line across the piece.
	left, top := math.Inf(1), math.Inf(1)
	foot := h - 30*fine
	for y := range foot {
		if a, _ := row(y); a >= 0 {
			left, top = min(left, a), min(top, (float64(y)+0.5)/fine)
		}
	}
	for share := 0.1; share < 0.95; share += 0.1 {
		y := box.Max.Y - share*box.Height()
		from, to := across(line, y)
		pixel := int(math.Round((top + 0.25 + share*box.Height()) * fine)) // the pen is half a millimetre wide
		a, z := row(pixel)
		if math.Abs((z-a)-(to-from)) > 0.2 || math.Abs(a-left-(from-box.Min.X)) > 0.2 {
			t.Errorf("%.0f %% down it is %.2f to %.2f mm wide, want %.2f to %.2f", 100*share, a-left, z-left, from-box.Min.X, to-box.Min.X)
		}
	}
}

// across is where a level line first and last meets an outline.
func across(line []geom.Point, y float64) (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	for i, p := range line {
		q := line[(i+1)%len(line)]
		if (p.Y > y) != (q.Y > y) {
			x := p.X + (q.X-p.X)*(y-p.Y)/(q.Y-p.Y)
			from, to = min(from, x), max(to, x)
		}
	}
	return from, to
}

func TestSteps(t *testing.T) {
	b := patterned(t)
	p := *kept(t, b)
	if got := stage.Steps(p, p); got != "nothing that is cut" {
		t.Errorf("got %q", got)
	}
}
