package browser

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

//go:embed testdata/axe.min.js
var axe string

// violation is what axe finds wrong.
type violation struct {
	Rule   string
	Impact string
	Nodes  []string // selector and why
}

// axeRun asks axe about the page as it stands; strict adds contrast of 7:1, and
// only the contrast is looked at where nothing but the light has changed.
func (p *tab) axeRun(strict, light bool) []violation {
	p.Helper()
	if !eval[bool](p, "'axe' in window") {
		p.do(chromedp.Evaluate[chromedp.Void](axe + ";undefined"))
	}
	only := ""
	if light {
		only = `runOnly: { type: "rule", values: ["color-contrast", "color-contrast-enhanced"] },`
	}
	return eval[[]violation](p, fmt.Sprintf(`(async () => {
		const r = await axe.run(document, { resultTypes: ["violations"], %s rules: { "color-contrast-enhanced": { enabled: %v } } });
		// A name that holds every word of a label, though with more between, is what 2.5.3 asks for.
		const named = (v, n) => {
			if (v.id !== "label-content-name-mismatch") return false;
			const e = document.querySelector(n.target[0]), name = e.getAttribute("aria-label") ?? "";
			return [...e.querySelectorAll("text")].every((t) => t.textContent.replace("…", "").trim().split(/\s+/).every((w) => name.includes(w)));
		};
		for (const v of r.violations) v.nodes = v.nodes.filter((n) => !named(v, n));
		return r.violations.filter((v) => v.nodes.length && ["serious", "critical"].includes(v.impact)).map((v) => ({
		Rule: v.id, Impact: v.impact,
		Nodes: v.nodes.map((n) => n.target.join(" ") + ": " + n.failureSummary.split("\n").slice(1).map((s) => s.trim()).join("; ")),
		}));
	})()`, only, strict))
}

// floor tells whether a page is used standing, with gloves: its targets are
// larger and its contrast higher.
func floor(path string) bool {
	return slices.ContainsFunc([]string{"/today", "/clocking", "/metal/new", "/slip", "/paint/may-spray", "/paint/clocks", "/paint/mix", "/hand"}, func(s string) bool { return strings.Contains(path, s) })
}

// target is something to touch and how much room a finger has on it.
type target struct {
	Says string
	W, H float64
}

// tight are the targets with less room than a finger needs: from the middle of
// each, points are tried outwards until they hit something else. Links inside a
// sentence are as high as its line, as WCAG 2.5.5 allows; panels of a drawing
// have the size that they have on the vehicle, and are listed by name as well.
func (p *tab) tight(least int) []target {
	p.Helper()
	return eval[[]target](p, fmt.Sprintf(`(() => {
		const least = %d, out = [];
		const says = (e) => (e.innerText ?? e.textContent ?? "").trim();
		// An open card lies over what is under it until it is closed.
		const all = (document.querySelector(".card:popover-open") ?? document).querySelectorAll("a[href], button, input:not([type=hidden]), select, textarea, summary");
		for (const e of all) {
			if (e.disabled || e.closest("[data-panel], .wall-link, .unseen, .skip") || !e.checkVisibility({ visibilityProperty: true })) continue;
			const label = e.matches("input[type=radio], input[type=checkbox]") ? e.closest("label") : null;
			const of = label ?? e;
			const sentence = e.matches("a") && getComputedStyle(e).display === "inline" && says(e.parentElement).length > says(e).length + 3;
			if (sentence) continue;
			of.scrollIntoView({ block: "center", inline: "center", behavior: "instant" });
			const r = [...of.getClientRects()].find((r) => r.width > 1 && r.height > 1);
			if (!r) continue;
			const x = r.x + r.width / 2, y = r.y + r.height / 2;
			const mine = (x, y) => {
				const hit = document.elementFromPoint(x, y);
				return !!hit && (of.contains(hit) || hit.closest("label")?.control === e || hit.closest("label") === of);
			};
			const reach = (dx, dy) => { let n = 0; while (n < 60 && mine(x + dx * (n + 1), y + dy * (n + 1))) n++; return n; };
			// A field's frame and its label belong to it as well.
			const box = e.closest(".field-box, .metal-words")?.getBoundingClientRect();
			const w = Math.max(reach(-1, 0) + reach(1, 0) + 1, r.width, box?.width ?? 0), h = Math.max(reach(0, -1) + reach(0, 1) + 1, r.height, box?.height ?? 0);
			// A figure only opens its working, so it has a finger's room, not a glove's.
			const need = e.matches(".figure") ? Math.min(least, 44) : least;
			if (w < need - 1 || h < need - 1) out.push({ Says: (e.getAttribute("aria-label") ?? says(e)).slice(0, 40) + " <" + e.tagName.toLowerCase() + "." + (e.getAttribute("class") ?? e.name ?? "") + ">", W: Math.round(w), H: Math.round(h) });
		}
		scrollTo(0, 0);
		return out;
	})()`, least))
}

// burst is how many paragraphs the browser closed early, because a card, which
// is a block, stood in them.
func (p *tab) burst() int {
	p.Helper()
	return eval[int](p, `document.querySelectorAll("p + .card").length`)
}

// wide is by how many pixels a page is wider than the screen.
func (p *tab) wide() int {
	p.Helper()
	return eval[int](p, "document.documentElement.scrollWidth - innerWidth")
}

// audited is one page in all lights and both sizes.
func (p *tab) audited(name string) {
	p.Helper()
	path := p.where()
	for _, light := range []string{"day", "bright", "night"} {
		p.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf("void (document.documentElement.dataset.theme = %q)", light)))
		if light != "day" {
			p.glance(name + "-" + light)
		}
		for _, v := range p.axeRun(floor(path), light != "day") {
			p.Errorf("%s (%s) by %s light: %s, %s\n\t%s", name, path, light, v.Impact, v.Rule, strings.Join(v.Nodes[:min(4, len(v.Nodes))], "\n\t"))
		}
	}
	p.do(chromedp.Evaluate[chromedp.Void]("void (document.documentElement.dataset.theme = 'day')"))
	least := 44
	if floor(path) {
		least = 56
	}
	small := p.tight(least)
	for _, s := range small[:min(6, len(small))] {
		p.Errorf("%s (%s): %q is %.0f × %.0f px, want at least %d", name, path, s.Says, s.W, s.H, least)
	}
	if n := p.burst(); n > 0 {
		p.Errorf("%s (%s): %d paragraphs end where a figure's card begins: use a div", name, path, n)
	}
	if n := p.wide(); n > 0 {
		p.Errorf("%s (%s): %d px wider than a tablet", name, path, n)
	}
	p.shoot(name)
	p.do(p.sized(phoneWidth, phoneHeight))
	if n := p.wide(); n > 0 {
		p.Errorf("%s (%s): %d px wider than a phone", name, path, n)
	}
	p.shoot(name + "-phone")
	p.do(p.sized(tabletWidth, tabletHeight))
}

// most is how much script a page may take in, in bytes as unpacked.
const most = 60_000

// sprayDay is a day in the booth of two products.
const sprayDay = "/paint/day?date=2026-10-07&opens=08:00&closes=16:00&metal=18&warm=60&clean=45&product-1=epoxy&sets-1=limewash+/+slackwater&product-2=satin-grey&sets-2=grey&turn-2=30"

// fourDoors is the mix card of the teal on both cab doors and both rear doors.
const fourDoors = "/paint/mix/base-slackwater?panel=P11&panel=P12&panel=P58&panel=P59&metal=18"

// stop is a page of a walk.
type stop struct{ name, path string }

// walked goes through pages below an address: each is audited, quiet, and light.
func (p *tab) walked(base string, stops []stop) {
	p.Helper()
	for _, c := range stops {
		p.Run(c.name, func(t *testing.T) {
			q := *p
			q.T = t
			q.saw.clear()
			q.open(base + c.path)
			q.until("nothing is on its way", `!document.querySelector(".htmx-request") && !document.querySelector("main").innerText.includes("being tried")`)
			q.audited(c.name)
			q.quiet()
			if n := q.saw.weight(); n > most {
				t.Errorf("%s takes in %d bytes of script, want at most %d", c.path, n, most)
			}
		})
	}
}

// TestAccessibility goes through every page.
func TestAccessibility(t *testing.T) {
	s := demoIn(t, t.TempDir())
	p := tablet(t, s.url)
	p.bare()
	preview := p.slipped()
	p.walked("/b/pedlar", []stop{
		{"van", "/van"}, {"van-inside", "/van?view=inside"}, {"van-movers", "/van/movers"}, {"metal", "/metal"}, {"metal-new", "/metal/new?panel=P04&x=1900&z=1790"},
		{"findings", "/metal/findings"}, {"finding", "/metal/finding/F01"}, {"panels", "/metal/panels"}, {"panel", "/metal/panel/P02"},
		{"read-in", "/read-in"}, {"preview", preview}, {"stores", "/stores"}, {"part-new", "/stores/new"}, {"part", "/part/Q04"}, {"order", "/stores/order"},
		{"away", "/away"}, {"load", "/load/O2"}, {"note", "/load/O2/note"},
		{"wall", "/wall"}, {"ways", "/wall/ways"}, {"order", "/wall/order"}, {"why-not", "/wall/why"}, {"why-not-sooner", "/wall/why?day=2027-01-15"}, {"task", "/task/T08"}, {"tin", "/tin"}, {"account", "/tin/account"},
		{"today", "/today"}, {"today-MW", "/today?who=MW"}, {"clocking", "/clocking"}, {"clocking-MW", "/clocking/MW"}, {"day-sheet", "/clocking/MW/sheet"},
		{"paint", "/paint"}, {"paint-paper", "/paint?as=paper"}, {"paint-tins", "/paint/tins"}, {"paint-tin", "/paint/tin/N08"}, {"paint-sheet", "/paint/product/clear"}, {"paint-new", "/paint/new"},
		{"paint-mix", fourDoors}, {"paint-mix-drawn", fourDoors + "&view=right"}, {"paint-mix-paper", fourDoors + "&as=paper"}, {"paint-mix-choose", "/paint/mix/clear"},
		{"paint-go", "/paint/may-spray?product=epoxy&air=17&rh=72&metal=13.5&laid=2026-10-05T16:10"}, {"paint-clocks", "/paint/clocks?air=18&rh=55&metal=18"}, {"spray-day", sprayDay},
		{"spray-day-paper", sprayDay + "&as=paper"}, {"paint-records", "/paint/records"}, {"paint-panel", "/paint/panel/P37"}, {"paint-redo", "/paint/redo"},
		{"look", "/look"}, {"look-inside", "/look?view=inside&line=none"}, {"look-new", "/look/new?from=high-water"}, {"look-paint", "/look/paint/base-limewash?over=sealer-black"},
		{"look-flake", "/look/paint/base-slackwater"}, {"look-card", "/look/card?product=base-limewash"},
		{"surfaces", "/trim/surfaces"}, {"surface", "/trim/surface/U1?cuts=19+760"}, {"surface-new", "/trim/surface"}, {"patterns", "/trim/patterns"}, {"pattern", "/trim/pattern/T01"}, {"sewing", "/trim/sew"}, {"stitch-sheet", "/trim/sew?as=paper"}, {"supplies", "/trim/supplies"},
		{"recipes", "/trim/recipes"}, {"recipe", "/trim/recipes/wheel?rim=432&grip=28"},
		{"people", "/people"}, {"journal", "/journal"}, {"journal-why", "/journal/why"}, {"slip", "/slip"}, {"gallery", "/gallery"},
	})
}

// slipped reads the demo's list in, puts it on the slip and returns the address
// of its preview below the build.
func (p *tab) slipped() string {
	p.Helper()
	p.open("/b/pedlar/read-in")
	p.do(chromedp.Focus(chromedp.CSS("#text")))
	p.paste(found(rest()))
	p.follow(p.labelled("button", "Look at it"))
	preview := strings.TrimPrefix(p.where(), "/b/pedlar")
	p.follow(".readin-acts button")
	return preview
}

// TestAccessibilityBites shows that planted faults are found.
func TestAccessibilityBites(t *testing.T) {
	s := demoIn(t, t.TempDir())
	p := tablet(t, s.url)
	p.open("/b/pedlar/clocking")
	p.do(chromedp.Evaluate[chromedp.Void](`void document.querySelector("main").insertAdjacentHTML("beforeend",
		"<p style='color:red'>x</p><img src='data:,'><input id=bare><button class=plate></button><a href='/x' class=block-act>x</a>")`))
	sheet := `for (const s of document.styleSheets) if (s.href) { s.insertRule("#pale { color: #686868; background: #fff }", s.cssRules.length); s.insertRule("#small { display: inline-block; width: 30px; min-height: 0; height: 30px; padding: 0 }", s.cssRules.length); break; }`
	p.do(chromedp.Evaluate[chromedp.Void](`void (() => {` + sheet + `
		document.querySelector("main").insertAdjacentHTML("beforeend", "<p id=pale>hard to read</p><button id=small>s</button><p id=broad>" + "w".repeat(400) + "</p>");
	})()`))
	p.until("the refused style is told of", `document.querySelector("#small")`)
	p.saw.mu.Lock()
	if !strings.Contains(strings.Join(p.saw.errors, " "), "Content Security Policy") {
		t.Errorf("the refused style is not told of: %q", p.saw.errors)
	}
	p.saw.mu.Unlock()
	got := map[string]bool{}
	for _, v := range p.axeRun(true, false) {
		got[v.Rule] = true
	}
	for _, want := range []string{"image-alt", "label", "button-name", "color-contrast-enhanced"} {
		if !got[want] {
			t.Errorf("axe does not find the planted %s; it finds %v", want, got)
		}
	}
	if !slices.ContainsFunc(p.tight(56), func(x target) bool { return strings.HasPrefix(x.Says, "s <button") }) {
		t.Errorf("the small button is not found: %v", p.tight(56))
	}
	if p.wide() <= 0 {
		t.Error("the word that is too long is not found")
	}
}
