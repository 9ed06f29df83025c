package metal_test

import (
	"encoding/csv"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/place/metal"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

func shopOn(t *testing.T, day unit.Date) *placetest.Shop {
	t.Helper()
	return placetest.Open(t, day, func(d desk.Desk) []web.Place { return []web.Place{metal.Place(d)} })
}

// TestHoles_BeforePaint: what the loom asks for stands at Metal with the day its
// panel is painted on, and is ticked there.
func TestHoles_BeforePaint(t *testing.T) {
	s := shopOn(t, unit.Day(2026, 10, 13))
	rows, err := csv.NewReader(strings.NewReader(s.Get("metal/holes?as=csv").Body)).ReadAll()
	if err != nil || len(rows) != 16 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for i, r := range rows[1:] {
		if !strings.Contains(r[5], " 2026, T") || r[6] != "to drill" {
			t.Errorf("row %d: %v", i, r)
		}
	}
	page := s.Get("metal/holes")
	for _, want := range []string{"Holes before paint", "H08, 32 mm in P08", "fuel and brake lines", `href="/b/pedlar/loom/route/hole/H01"`} {
		if !strings.Contains(page.Body, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if !strings.Contains(s.Get("metal").Body, "15 holes for the loom") || !strings.Contains(s.Get("metal/panel/P25").Body, "2 holes for the loom") {
		t.Error("the body or the panel does not name its holes")
	}
	if got := s.Post("metal/holes", "hole", "H08"); got.See != "/b/pedlar/metal/holes" {
		t.Fatalf("%d to %q: %.300s", got.Status, got.See, got.Body)
	}
	b := s.Build(t)
	if h := b.Loom.Hole("H08"); !h.Drilled || h.Day != unit.Day(2026, 10, 13) {
		t.Errorf("ticked %+v", h)
	}
	for _, again := range []string{"H08", "H99", ""} {
		if got := s.Post("metal/holes", "hole", again); got.Status != 422 || !strings.Contains(got.Body, "to put right") {
			t.Errorf("%q: %d", again, got.Status)
		}
	}
	s.Person.Role = account.Guest
	if got := s.Get("metal/holes"); got.Status != 200 || strings.Contains(got.Body, `action="/b/pedlar/metal/holes"`) {
		t.Error("a guest is offered to tick")
	}
	if got := s.Post("metal/holes", "hole", "H01"); got.Status != 403 {
		t.Errorf("a guest ticks: %d", got.Status)
	}
}

// TestHoles_Late: a hole that is asked for when its panel is in paint says what
// it costs.
func TestHoles_Late(t *testing.T) {
	file, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	file.Build.Loom.Holes = append(file.Build.Loom.Holes, build.Hole{ID: "H16", At: "B24", Panel: "P32", Diameter: 20 * unit.Millimetre})
	s := placetest.Of(t, file, unit.Day(2027, 1, 15), func(d desk.Desk) []web.Place { return []web.Place{metal.Place(d)} })
	page := s.Get("metal/holes").Body
	for _, want := range []string{"1 of 1 holes are late", "in paint", "12 to 25 h", "painted already"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
}
