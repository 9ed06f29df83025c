package shapeout_test

import (
	"context"
	"math"
	"net/http/httptest"
	"strings"
	"testing"

	"fettle/geom"
	"fettle/geom/dxf"
	"fettle/geom/outline"
	"fettle/geom/pdf"
	"fettle/geom/svg"
	"fettle/internal/account"
	"fettle/internal/placetest"
	"fettle/internal/shapeout"
	"fettle/internal/web"
)

type nobody struct{}

func (nobody) Title(context.Context, string) (web.Title, error) { return web.Title{}, nil }
func (nobody) Home(context.Context) (string, error)             { return "/", nil }

// plate is 80 × 50 mm with a window of 20 × 10.
var plate = geom.Polygon{Outer: []geom.Point{{X: 0, Y: 0}, {X: 80, Y: 0}, {X: 80, Y: 50}, {X: 0, Y: 50}}, Holes: [][]geom.Point{{{X: 10, Y: 10}, {X: 10, Y: 20}, {X: 30, Y: 20}, {X: 30, Y: 10}}}}

// answer is what a page that draws the plate answers to a query.
func answer(t *testing.T, query string) *httptest.ResponseRecorder {
	t.Helper()
	draw := func(r *web.Request) error {
		return shapeout.Drawing(r, "plate-1", "a plate", outline.Plan{Outlines: shapeout.Closed("CUT", plate)}, map[string]pdf.Pen{"CUT": {Width: 0.5}})
	}
	s := web.New(web.Config{Builds: nobody{}, Gate: web.Fixed(account.Person{ID: "1", Name: "A", Role: web.Owner}), Places: []web.Place{{Key: "m", Label: "M", Path: "/b/{build}/m", Routes: []web.Route{{Pattern: "GET /b/{build}/m", Who: web.Guest, Handle: draw}}}}})
	t.Cleanup(func() { s.Hub().Close() })
	got := httptest.NewRecorder()
	s.ServeHTTP(got, httptest.NewRequest("GET", "/b/pedlar/m?"+query, nil))
	return got
}

// TestDrawing: every form carries its name and type, and drawings are read back
// at true size.
func TestDrawing(t *testing.T) {
	for query, want := range map[string][2]string{
		"":           {"plate-1.dxf", "image/vnd.dxf"},
		"form=dxf":   {"plate-1.dxf", "image/vnd.dxf"},
		"form=dxf12": {"plate-1.dxf", "image/vnd.dxf"},
		"form=svg":   {"plate-1.svg", "image/svg+xml"},
		"form=pdf":   {"plate-1.pdf", "application/pdf"},
	} {
		got := answer(t, query)
		if head := got.Header(); got.Code != 200 || !strings.Contains(head.Get("Content-Disposition"), want[0]) || !strings.HasPrefix(head.Get("Content-Type"), want[1]) {
			t.Errorf("%q: %d %s %s", query, got.Code, head.Get("Content-Disposition"), head.Get("Content-Type"))
		}
		var read outline.Drawing
		var err error
		switch want[1] {
		case "image/vnd.dxf":
			read, err = dxf.Read(got.Body, outline.Options{Unit: map[string]float64{"form=dxf12": 1}[query]})
		case "image/svg+xml":
			read, err = svg.Read(got.Body, outline.Options{})
		default:
			continue
		}
		if err != nil {
			t.Errorf("%q: %v", query, err)
			continue
		}
		if area := largest(read); math.Abs(area-4000) > 0.5 {
			t.Errorf("%q: the largest line read back encloses %.2f mm²", query, area)
		}
	}
}

func TestDrawing_AFormThatIsNone(t *testing.T) {
	if got := answer(t, "form=stone"); got.Code != 422 || !strings.Contains(got.Body.String(), "pdf, dxf, dxf12 or svg") {
		t.Errorf("%d: %.200s", got.Code, got.Body)
	}
}

func largest(d outline.Drawing) (area float64) {
	for _, o := range d.Outlines {
		area = max(area, math.Abs(geom.RingArea(o.Points)))
	}
	return area
}

// TestPrinted: the plate has its size on paper, and a paper that is none is
// refused.
func TestPrinted(t *testing.T) {
	if got := answer(t, "form=pdf&paper=stone"); got.Code != 422 {
		t.Errorf("paper of stone: %d", got.Code)
	}
	const fine = 8
	m := placetest.Printed(t, answer(t, "form=pdf").Body.String(), fine)[0]
	var wide, high float64
	for y := range m.Bounds().Dy() / 2 {
		runs := placetest.Ink(func(i int) uint8 { return m.GrayAt(i, y).Y }, m.Bounds().Dx())
		if n := len(runs); n == 2 && runs[1]-runs[0] < 90*fine {
			wide = max(wide, (runs[1]-runs[0])/fine)
		}
	}
	for x := range m.Bounds().Dx() / 2 {
		runs := placetest.Ink(func(i int) uint8 { return m.GrayAt(x, i).Y }, m.Bounds().Dy()/2)
		if n := len(runs); n == 2 && runs[1]-runs[0] < 60*fine {
			high = max(high, (runs[1]-runs[0])/fine)
		}
	}
	if math.Abs(wide-80) > 0.2 || math.Abs(high-50) > 0.2 {
		t.Errorf("on paper it is %.2f × %.2f mm, want 80 × 50", wide, high)
	}
}
