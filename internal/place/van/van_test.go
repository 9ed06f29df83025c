package van_test

import (
	"net/url"
	"strings"
	"testing"

	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/place/metal"
	"fettle/internal/place/van"
	"fettle/internal/placetest"
	"fettle/internal/web"
)

func TestTheFrontPage(t *testing.T) {
	b := placetest.New(t, func(d desk.Desk) []web.Place { return []web.Place{van.Place(d), metal.Place(d)} })
	page := b.Get("/b/pedlar/van")
	for _, want := range []string{
		"4 in 5 by", "promised 19 Feb 2027", "mark-safe", "aim £38,000", "31 open findings, 224 h", `href="/b/pedlar/wall#T08"`,
		`aria-label="P11 cab door skin, left, replace, 1 finding"`, `href="/b/pedlar/metal/panel/P11"`, `<b class="num">12</b> replace`, `popovertarget="w-odds"`,
	} {
		if !strings.Contains(page.Body, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	if strings.Contains(page.Body, "vehicle-draft") {
		t.Error("a finding is drawn as not kept, and there is none")
	}
	for _, view := range []string{"right", "front", "rear", "top", "inside"} {
		if got := b.Get("/b/pedlar/van?view=" + view); got.Status != 200 || got.Body == page.Body {
			t.Errorf("the view %s: got %d, or the left side", view, got.Status)
		}
	}
}

func TestWhatEachTaskWouldWinBack(t *testing.T) {
	b := placetest.New(t, func(d desk.Desk) []web.Place { return []web.Place{van.Place(d), metal.Place(d)} })
	if body := b.Get("/b/pedlar/van").Body; !strings.Contains(body, `href="/b/pedlar/van/movers"`) {
		t.Error("the front page does not lead to what each task would win back")
	}
	page := b.Get("/b/pedlar/van/movers").Body
	for _, want := range []string{"What would move the date most", "instead of", "sets the date in", "sampling error under", "Two tasks won back do not add up", "cruciality"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if n := strings.Count(page, `class="card"`); n != 3 {
		t.Errorf("%d workings, want those of three tasks", n)
	}
}

func TestAnotherVehicleHasItsOwnFrontPage(t *testing.T) {
	file, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	b := placetest.NewOf(t, file, func(d desk.Desk) []web.Place { return []web.Place{van.Place(d), metal.Place(d)} })
	base := "/b/" + file.Build.Name
	page := b.Get(base + "/van")
	if page.Status != 200 || !strings.Contains(page.Body, file.Build.Cause.Name) || strings.Contains(page.Body, "£") {
		t.Errorf("got %d, want the cause %q and no pounds", page.Status, file.Build.Cause.Name)
	}
	drawn := 0
	for _, p := range file.Build.Panels {
		if got := b.Get(base + "/metal/panel/" + string(p.ID)); got.Status != 200 {
			t.Errorf("panel %s: got %d", p.ID, got.Status)
		}
		drawn += len(p.Outlines)
	}
	if n := strings.Count(b.Get(base+"/metal").Body, `class="vehicle-panel"`); drawn == 0 || n == 0 {
		t.Errorf("got %d panels to touch of %d outlines", n, drawn)
	}
	panel := string(file.Build.Panels[0].ID)
	got := b.Post(base+"/metal/new", url.Values{"panel": {panel}, "x": {"1"}, "z": {"1"}, "kind": {"dent"}, "width": {"90"}, "found": {"arrival"}, "remedy": {"repair"}})
	if got.Status != 303 {
		t.Errorf("a finding on %s: got %d", panel, got.Status)
	}
}

func TestTheSlipIsDrawnInAlready(t *testing.T) {
	b := placetest.New(t, func(d desk.Desk) []web.Place { return []web.Place{van.Place(d), metal.Place(d)} })
	b.Post("/b/pedlar/metal/new", url.Values{"panel": {"P04"}, "x": {"1900"}, "z": {"1790"}, "kind": {"perforated"}, "width": {"640"}, "height": {"25"}, "found": {"blast"}, "remedy": {"repair"}})
	page := b.Get("/b/pedlar/van").Body
	for _, want := range []string{"32 open findings", "1 of them not kept yet", "F32 perforated, repair, not kept yet", `id="slipbar"`} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	b.As(account.Guest)
	if got := b.Get("/b/pedlar/van"); got.Status != 200 {
		t.Errorf("a guest: got %d, want 200", got.Status)
	}
}
