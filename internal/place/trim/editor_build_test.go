package trim

import (
	"regexp"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/web"
	stage "fettle/stage/trim"
	"fettle/unit"
)

const handAt = "trim/lay/tan%20leather/hand"

// handShop is the shop on the day after the hides were drawn.
func handShop(t *testing.T) *placetest.Shop {
	return placetest.Open(t, unit.Day(2026, 10, 9), func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
}

// sentWith is what the page sends with one more piece on a hide.
func sentWith(more ...string) []string {
	return append([]string{"sheet-T21", "H3", "x-T21", "760", "y-T21", "1045", "turn-T21", "0", "lock-T21", "on"}, more...)
}

// TestHand_ShowsTheKeptPlan shows all places with every digit they were kept
// with: sent back as they are, the exact checker finds nothing.
func TestHand_ShowsTheKeptPlan(t *testing.T) {
	s := handShop(t)
	got := s.Get(handAt)
	for _, want := range []string{"Hide H1", "Hide H3", `data-copy="T21"`, "belly L", "insect bites", `id="layout-data"`, "/static/light"} {
		if !strings.Contains(got.Body, want) {
			t.Errorf("status %d, the page lacks %q", got.Status, want)
		}
	}
	b := s.Build(t)
	layout := b.LayoutOf("tan leather")
	form := []string{"do", "check"}
	for _, c := range stage.Cuts(&b, "tan leather") {
		for _, n := range c.Copies {
			at := layout.Where(c.Piece.ID, n)
			if at == nil {
				continue
			}
			for name, value := range map[string]string{"sheet": string(at.Hide), "x": whole(at.X), "y": whole(at.Y), "turn": whole(at.Rotation)} {
				field := name + "-" + c.Name(n)
				if name != "sheet" && !strings.Contains(got.Body, `name="`+field+`" value="`+value+`"`) {
					t.Errorf("the page does not say %s for %s", value, field)
				}
				form = append(form, field, value)
			}
		}
	}
	if got := s.Post(handAt, form...); got.Status != 200 || !strings.Contains(got.Body, "Nothing is wrong") {
		t.Errorf("the kept plan sent back as it stands: status %d, and the exact checker finds something", got.Status)
	}
	for path, want := range map[string]int{"trim/lay/gold/hand": 404, "trim/lay/carpet/hand": 404} {
		if got := s.Get(path); got.Status != want {
			t.Errorf("%s: status %d, want %d", path, got.Status, want)
		}
	}
}

// TestHand_Check says of each fault which copy has it, keeps nothing, and
// refuses what is no number, no hide or no area beside its field.
func TestHand_Check(t *testing.T) {
	s := handShop(t)
	for _, c := range []struct {
		name   string
		more   []string
		status int
		says   string
	}{
		{"one that lies free", []string{"sheet-T04", "H2", "x-T04", "900", "y-T04", "1200", "turn-T04", "90"}, 200, "Nothing is wrong"},
		{"off the hide", []string{"sheet-T04", "H2", "x-T04", "0", "y-T04", "0", "turn-T04", "90"}, 200, `data-pick="T04"`},
		{"across the stretch", []string{"sheet-T04", "H2", "x-T04", "900", "y-T04", "1200", "turn-T04", "0"}, 200, `data-pick="T04"`},
		{"on a keep-out", []string{"sheet-T04", "H2", "x-T04", "900", "y-T04", "1200", "turn-T04", "90", "outs-H2", "700 1300, 800 1300, 800 1400"}, 200, `data-pick="T04"`},
		{"a keep-out that crosses itself", []string{"outs-H2", "0 0, 100 100, 100 0, 0 100"}, 422, "thing to put right"},
		{"two corners", []string{"outs-H2", "0 0, 100 100"}, 422, "a keep-out needs 3 corners"},
		{"no number", []string{"sheet-T04", "H2", "x-T04", "wide"}, 422, "is not a number"},
		{"no such hide", []string{"sheet-T04", "H9"}, 422, "is none of the sheets"},
		{"no such act", []string{"do", "cut"}, 422, "must be one of"},
	} {
		got := s.Post(handAt, sentWith(append([]string{"do", "check"}, c.more...)...)...)
		if c.name == "no such act" {
			got = s.Post(handAt, sentWith(c.more...)...)
		}
		if got.Status != c.status || !strings.Contains(got.Body, c.says) {
			t.Errorf("%s: status %d, want %d and %q", c.name, got.Status, c.status, c.says)
		}
	}
	if n := len(s.Slip(t)); n != 0 {
		t.Errorf("checks laid %d changes on the slip", n)
	}
}

// TestHand_Keep lays the plan and the keep-outs on the slip, once they hold.
func TestHand_Keep(t *testing.T) {
	s := handShop(t)
	base := regexp.MustCompile(`name="base" value="([0-9a-f]+)"`)
	free := []string{"base", base.FindStringSubmatch(s.Get(handAt).Body)[1], "do", "keep", "sheet-T04", "H2", "x-T04", "900,5", "y-T04", "1200", "turn-T04", "90", "lock-T04", "on", "outs-H1", "500 500, 600 500, 600 600"}
	if got := s.Post(handAt, sentWith(append(free, "sheet-T07", "H2", "x-T07", "900", "y-T07", "1200", "turn-T07", "90")...)...); got.Status != 422 || len(s.Slip(t)) != 0 {
		t.Errorf("a plan with a fault: status %d, %d changes on the slip, want 422 and none", got.Status, len(s.Slip(t)))
	}
	if got := s.Post(handAt, sentWith(append([]string{"base", "0"}, free[2:]...)...)...); got.Status != 422 || !strings.Contains(got.Body, "somebody else") || len(s.Slip(t)) != 0 {
		t.Errorf("over a plan that has changed: status %d, want 422 and the reason", got.Status)
	}
	got := s.Post(handAt, sentWith(free...)...)
	if got.Status != 303 || got.See != "/b/pedlar/slip" {
		t.Fatalf("status %d to %q, want on to the slip", got.Status, got.See)
	}
	changes := s.Slip(t)
	if len(changes) != 2 {
		t.Fatalf("%d changes on the slip, want the keep-out and the plan", len(changes))
	}
	if out := changes[0].(*build.KeepOut); out.Hide != "H1" || len(out.Shapes) != 1 {
		t.Errorf("keep-outs %+v", out)
	}
	at := changes[1].(*build.KeepLayout).Layout.Where("T04", 0)
	if at == nil || *at != (build.Placed{Piece: "T04", Hide: "H2", X: 900.5, Y: 1200, Rotation: 90, Locked: true}) {
		t.Errorf("T04 is kept at %+v", at)
	}
	// The slip is drawn in: the page shows what it would be.
	if page := s.Get(handAt); !strings.Contains(page.Body, `value="900.5"`) || !strings.Contains(page.Body, "500 500, 600 500, 600 600") {
		t.Error("the page does not show what is on the slip")
	}
	s.Person.Role = account.Guest
	if got := s.Post(handAt, sentWith(free...)...); got.Status != 403 {
		t.Errorf("a guest may keep: status %d", got.Status)
	}
	if page := s.Get(handAt); page.Status != 200 || strings.Contains(page.Body, "Keep this plan") {
		t.Errorf("status %d, a guest is offered to keep", page.Status)
	}
}
