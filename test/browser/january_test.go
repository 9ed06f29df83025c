package browser

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fettle/build"
	"fettle/unit"
)

// january serves the demo build of the Wednesday on which the booth is cold, with
// more that was kept that morning, and returns the folder it is kept in.
func january(t *testing.T, kept ...build.Change) (*server, string) {
	t.Helper()
	dir := t.TempDir()
	const day = "2027-01-06"
	run(t, "new", "pedlar", "--from", "../../internal/demo/pedlar.json", "--until", day, "--data", dir)
	if len(kept) > 0 {
		var all []string
		for _, c := range kept {
			body, err := build.EncodeNamed(c)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, string(body))
		}
		file := filepath.Join(t.TempDir(), "changes.json")
		if err := os.WriteFile(file, []byte("["+strings.Join(all, ",")+"]"), 0o600); err != nil {
			t.Fatal(err)
		}
		run(t, "record", "pedlar", file, "--data", dir, "--now", day)
	}
	return demoIn(t, dir, "--until", day), dir
}

// sealed is the sealer on the four loose doors, which leaves the base to do.
func sealed() build.Change {
	return &build.LayCoat{Coat: build.Coat{ID: "L90", Product: "sealer-black", Panels: []build.PanelID{"P11", "P12", "P58", "P59"}, Zones: []build.ZoneID{"slackwater"},
		Number: 1, At: unit.Day(2027, 1, 6).At(7, 15), Metal: 18, Air: 20, RH: 42, By: "PT"}}
}

// apart checks that targets have a glove's room in both directions and that no
// two of them touch.
func (p *tab) apart(css string) {
	p.Helper()
	for _, wrong := range eval[[]string](p, fmt.Sprintf(`(() => {
		const all = [...document.querySelectorAll(%q)].filter((e) => e.getClientRects().length).map((e) => ({ e, r: e.getBoundingClientRect() })), out = [];
		const says = (e) => (e.getAttribute("aria-label") ?? e.innerText).trim();
		if (!all.length) out.push("there is none");
		for (const { e, r } of all) if (Math.min(r.width, r.height) < 55.5) out.push(says(e) + " is " + Math.round(r.width) + " × " + Math.round(r.height) + " px, want 56");
		for (const [i, a] of all.entries()) for (const b of all.slice(i + 1)) {
			const gap = Math.max(a.r.x - b.r.right, b.r.x - a.r.right, a.r.y - b.r.bottom, b.r.y - a.r.bottom);
			if (gap < 1) out.push(says(a.e) + " and " + says(b.e) + " are " + gap.toFixed(1) + " px apart");
		}
		return out;
	})()`, css)) {
		p.Errorf("%s, %s: %s", p.where(), css, wrong)
	}
}

// scale is what the mix card lets the painter read, line by line.
func (p *tab) scale() string {
	p.Helper()
	return eval[string](p, `[...document.querySelectorAll(".paint-pours tbody tr")].map((r) => [r.querySelector(".paint-pour-name"), ...r.querySelectorAll("td")].map((e) => e.innerText.trim()).join(" ")).join("; ")`)
}

// doorsScale is that of the four loose doors: ml, grams, what the scale shows.
const doorsScale = "Slackwater base 316 316 316; Reducer BR 253 220 536"

// doorsMix is the mix card of the four loose doors.
const doorsMix = "/paint/mix/base-slackwater?panel=P11&panel=P12&panel=P58&panel=P59&coats=3&metal=18"

// cardSays checks the mix card of the four loose doors.
func (p *tab) cardSays() {
	p.Helper()
	for _, want := range []string{"3 coats on P11", "P12", "P58", "P59", "1.72 m²", "18 °C", "fast, for metal of 18 °C", "tin N08"} {
		p.says("main", want)
	}
	for _, want := range []string{"0.37 l", "0.20 l", "0.57 l", "0.92 l", "of 1.24 l for the whole job"} {
		p.says("#mix-amounts", want)
	}
	if got := p.scale(); got != doorsScale {
		p.Errorf("to pour: got %q, want %q", got, doorsScale)
	}
	p.says("#mix-batch", "Will the same batch do the rest? yes Batch S-0114")
	p.says(".paint-cautions", "air-fed breathing")
}

// TestMoment3ByTouch mixes for four loose doors with a glove on: two touches
// from the front page to grams, one to keep, one to put back.
func TestMoment3ByTouch(t *testing.T) {
	s, dir := january(t, sealed())
	p := tablet(t, s.url)
	p.do(p.sized(1024, 1366))
	plan := planned(t, dir)
	left := func(want string) {
		t.Helper()
		p.open("/b/pedlar/paint/tin/N08")
		p.says("#tin-facts", want+" of 1.00 l")
	}
	p.open("/b/pedlar/van")
	p.apart(".plate")
	p.follow(p.labelled(".plate", "Paint"))
	p.apart(".paint-act, .ways-kinds a, .paint-find button")
	p.says("#paint-next", "planned Wed 6 Jan")
	p.shoot("paint")
	p.quick("touch to mix card", p.leads("touch Mix", p.finger(p.labelled(".paint-act", "Mix Slackwater base"))))
	p.glance("card")
	p.cardSays()

	p.apart(".paint-heat-row a")
	p.follow(p.labelled(".paint-heat-row a", "metal one degree warmer"))
	p.says(".paint-grade", "for metal of 19 °C")
	p.follow(p.labelled(".paint-heat-row a", "metal one degree colder"))
	card := p.where()
	p.apart("#pour button, #pour .field-box, #pour .button-row a")
	p.follow(p.labelled("#pour button", "Poured"))
	p.says("h1", "Mix M04, Slackwater base")
	p.says("#mix-facts", "316 ml, 316 g N08")
	p.says("#mix-facts", "metal 18 °C, air 20 °C, 42 % RH")
	p.says(".undo", "Kept 0.57 l of Slackwater base")
	p.shoot("poured")
	p.apart(".undo button, #mix-facts + section button")
	p.follow(".undo button")
	if got := p.where(); got != card {
		t.Errorf("put back leads to %s, want the card %s", got, card)
	}
	left("1.00 l")
	if got := planned(t, dir); got != plan {
		t.Error("put back: the plan is not the old one")
	}

	p.open(card)
	p.follow(p.labelled("#pour button", "Poured"))
	p.write("#left", "94")
	p.follow(p.labelled("button", "Weighed back"))
	p.says("#mix-facts", "0.10 l, so 0.47 l sprayed")
	left("0.68 l")
	p.quiet("/paint/pour/M04") // the page asked for itself as its mix went
}
