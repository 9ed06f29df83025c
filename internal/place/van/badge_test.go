package van_test

import (
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/live"
	"fettle/internal/place/van"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

// TestPaintClocksOnTheVan: every panel whose paint waits carries a badge with a
// word, and leads to its record.
func TestPaintClocksOnTheVan(t *testing.T) {
	places := func(d desk.Desk) []web.Place { return []web.Place{van.Place(d)} }
	day := unit.Day(2027, time.January, 6)
	s := placetest.Open(t, day, places)
	s.At(day, 15, 30)
	if body := s.Get("van").Body; strings.Contains(body, "vehicle-badge") {
		t.Error("a badge, and nothing runs")
	}
	coat := build.Coat{ID: "K90", Product: "base-limewash", Panels: []build.PanelID{"P37"}, Number: 3, At: (day - 1).At(16, 10), Metal: 18, Air: 19, RH: 45}
	if _, err := s.Desk.Shop.Record(t.Context(), s.Name, -1, live.Who{Person: "PT"}, []live.Draft{{Change: &build.LayCoat{Coat: coat}}}); err != nil {
		t.Fatal(err)
	}
	s.At(day, 15, 31)
	body := s.Get("van").Body
	for _, want := range []string{
		`aria-label="P37 paint closing: Upper body, Clear over Limewash base: closing, 39 min left (by 16:10)"`, `href="/b/pedlar/paint/panel/P37"`,
		"vehicle-badge-slipping", "paint closing", `href="/b/pedlar/paint/clocks"><b class="num">1</b> panel</a>`,
	} {
		if !strings.Contains(body, want) {
			t.Errorf("the van lacks %s: %.200s", want, body[max(0, strings.Index(body, "P37 paint")):])
		}
	}
	s.At(day, 16, 11)
	if body := s.Get("van").Body; !strings.Contains(body, "P37 paint closed") {
		t.Error("the badge does not follow the clock")
	}
	s.At(day+2, 8, 0)
	if body := s.Get("van").Body; strings.Contains(body, "P37 paint closed") {
		t.Error("a window that closed long ago still hangs on the van")
	}
	blast := placetest.Open(t, unit.Day(2026, time.October, 6), places)
	if body := blast.Get("van").Body; !strings.Contains(body, "bare metal") || !strings.Contains(body, "P37 paint bare") {
		t.Error("bare metal carries no badge")
	}
}
