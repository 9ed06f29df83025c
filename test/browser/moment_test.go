package browser

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"fettle/internal/demo"
)

// guessed tells that the hours shown are those of the size typed.
const guessed = `!document.querySelector(".metal-even").innerText.includes("without a size")`

// rest is the demo's list of findings without the one that is touched in by
// hand.
func rest() string {
	var out []string
	for line := range strings.SplitSeq(strings.TrimPrefix(string(demo.BlastList()), "\ufeff"), "\n") {
		if !strings.HasPrefix(line, "F32,") {
			out = append(out, strings.TrimRight(line, "\r"))
		}
	}
	return strings.Join(out, "\n")
}

// figures are the numbers on the front page that a change may move.
func (p *tab) figures() string {
	p.Helper()
	p.open("/b/pedlar/van")
	return strings.Join(strings.Fields(p.text("#van-head")), " ")
}

// planned is the whole plan, as the command line prints it from the same folder.
func planned(t *testing.T, dir string) string {
	t.Helper()
	return run(t, "plan", "pedlar", "--json", "--data", dir, "--now", "2026-10-06", "--runs", "200")
}

// spot is the point on the screen of a place on the vehicle in the view drawn.
func (p *tab) spot(panel string, x, z int) point {
	p.Helper()
	return eval[point](p, fmt.Sprintf(`(() => {
		const svg = document.querySelector("svg[data-pick]");
		svg.querySelector("[data-panel=%s]").scrollIntoView({ block: "center", behavior: "instant" });
		const [ox, oy] = svg.dataset.origin.split(" ").map(Number), scale = Number(svg.dataset.scale);
		const [a, b] = svg.dataset.axes.split(" ");
		const to = { x: %d, z: %d };
		const at = new DOMPoint(ox + scale * to[a[0]] * (a[1] === "-" ? -1 : 1), oy + scale * to[b[0]] * (b[1] === "-" ? -1 : 1));
		const s = at.matrixTransform(svg.getScreenCTM());
		return { X: s.x, Y: s.y };
	})()`, panel, x, z))
}

// slipSays checks what the knock-on of the fourteen findings shows.
func (p *tab) slipSays() {
	p.Helper()
	row := func(what string) string {
		return eval[string](p, fmt.Sprintf(`[...document.querySelectorAll(".slip-lines tbody tr")].find((r) => r.querySelector("th").innerText.toLowerCase().startsWith(%q))?.innerText.replace(/\s+/g, " ") ?? ""`, what))
	}
	for what, want := range map[string][]string{"findings in metal": {"224 h", "310 h"}, "cash": {"£49,860", "£52,570", "+£2,710"}} {
		for _, w := range want {
			if got := row(what); !strings.Contains(got, w) {
				p.Errorf("knock-on, %s: got %q, want %q in it; the slip says\n%s", what, got, w, p.text(".slip-lines"))
			}
		}
	}
	if odds := percents.FindAllStringSubmatch(row("odds of"), 2); len(odds) < 2 {
		p.Errorf("knock-on, odds: got %q, want two chances", row("odds of"))
	} else if b, a := whole(odds[0][1]), whole(odds[1][1]); b-a < 35 {
		p.Errorf("knock-on: the odds go from %d to %d %%, want a fall of at least 35 points", b, a)
	}
	for _, part := range []string{"Q11", "Q12", "Q13"} {
		p.says(".knockon-lists", part)
	}
}

var percents = regexp.MustCompile(`(\d+) %`)

func whole(text string) int {
	n, _ := strconv.Atoi(text)
	return n
}

// barSays waits for the figures on the slip's bar.
func (p *tab) barSays() {
	p.Helper()
	p.until("date and odds on the slip's bar", `/half by .*→.*odds .*→.* %/s.test(document.querySelector("#slipbar")?.innerText ?? "")`)
}

// quick checks a time against the second that is promised; a busy machine is
// given three.
func (p *tab) quick(what string, took time.Duration) {
	p.Helper()
	p.Logf("%s: %d ms", what, took.Milliseconds())
	if took > 3*time.Second {
		p.Errorf("%s took %v, want at most a second, three on a busy machine", what, took)
	}
}

// TestMoment1ByTouch is the morning after the blast with a finger: one finding
// touched in, thirteen read in, the knock-on looked at, kept and put back.
func TestMoment1ByTouch(t *testing.T) {
	dir := t.TempDir()
	s := demoIn(t, dir)
	p := tablet(t, s.url)
	before, plan := p.figures(), planned(t, dir)
	p.follow(p.labelled(".plate", "Metal"))
	at := p.spot("P02", 2450, 1850)
	p.leads("touch the roof", chromedp.TapXY(at.X, at.Y))
	p.shoot("form")
	p.near("#x", 2450, 25)
	p.near("#z", 1850, 25)
	p.tap(`input[value="old patch under filler"] + .choice-word`)
	p.write("#words", "6 mm filler over old patch")
	p.tap(`[data-of=width][data-step="10"]`)
	p.says(".metal-step", "−")
	p.write("#width", "500")
	p.write("#height", "350")
	p.until("guesses for this size", guessed)
	p.tap(`input[name=remedy][value=repair] + .choice-word`)
	p.tap("summary.button")
	p.write("#hours-MW", "10")
	p.write("#hours-LD", "0")
	p.shoot("filled")
	p.follow(p.labelled("button", "On my slip"))
	p.barSays()
	p.shoot("bar")

	p.follow(p.labelled("a", "Read a list in"))
	list := filepath.Join(t.TempDir(), "blast-sheet.csv")
	if err := os.WriteFile(list, []byte(rest()), 0o600); err != nil {
		t.Fatal(err)
	}
	p.do(chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{list}))
	p.follow(p.labelled("button", "Look at it"))
	p.shoot("preview")
	p.follow(".readin-acts button")
	p.barSays()
	p.shoot("list-taken")
	p.quick("touch to figures of the knock-on", p.leads("see the knock-on", p.finger("#slipbar a")))
	p.glance("slip")
	p.slipSays()
	p.follow(".button-keep")
	p.says(".undo", "Kept")
	if after := strings.Join(strings.Fields(p.text("#van-head")), " "); after == before {
		t.Errorf("the front page still says %q", after)
	}
	p.shoot("kept")
	p.follow(".undo button")
	if got := p.figures(); got != before {
		t.Errorf("put back: the front page says %q, want %q", got, before)
	}
	if got := planned(t, dir); got != plan {
		t.Error("put back: the plan is not the old one")
	}
	p.quiet()
}

// near checks a number in a field.
func (p *tab) near(css string, want, off int) {
	p.Helper()
	got := whole(eval[string](p, fmt.Sprintf("document.querySelector(%q).value", css)))
	if got < want-off || got > want+off {
		p.Errorf("%s: got %d, want %d within %d", css, got, want, off)
	}
}

// TestMoment1ByKeyboard is the same morning without a finger.
func TestMoment1ByKeyboard(t *testing.T) {
	dir := t.TempDir()
	s := demoIn(t, dir)
	p := tablet(t, s.url)
	before, plan := p.figures(), planned(t, dir)
	enter := func(css string) { p.Helper(); p.tabTo(css); p.leads("Enter on "+css, chromedp.KeyEvent(kb.Enter)) }

	enter(p.labelled(".plate", "Metal"))
	enter("[data-panel=P02]")
	if !strings.Contains(p.where(), "/new") {
		enter(p.labelled("a", "Record one here"))
	}
	p.tabTo("input[name=kind]")
	p.press(kb.ArrowRight, kb.ArrowRight)
	p.seen("the third kind")
	p.tabTo("#words")
	p.press("6 mm filler over old patch")
	p.tabTo("#width")
	p.press("500")
	p.tabTo("#height")
	p.press("350")
	p.until("guesses for this size", guessed)
	if got := eval[string](p, "document.activeElement.id"); got != "height" {
		t.Errorf("the focus was on height and is on %q after the guesses came", got)
	}
	p.tabTo("summary.button")
	p.press(kb.Enter)
	p.tabTo("#hours-MW")
	p.press("10")
	p.tabTo("#hours-LD")
	p.press("0")
	p.leads("Enter in the form", chromedp.KeyEvent(kb.Enter))
	p.barSays()

	enter(p.labelled("a", "Read a list in"))
	p.tabTo("#text")
	p.paste(found(rest()))
	enter(p.labelled("button", "Look at it"))
	enter(".readin-acts button")
	p.barSays()
	p.tabTo("#slipbar a")
	p.quick("key to figures of the knock-on", p.leads("Enter on the slip's bar", chromedp.KeyEvent(kb.Enter)))
	p.slipSays()
	enter(".button-keep")
	p.says(".undo", "Kept")
	enter(".undo button")
	if got := p.figures(); got != before {
		t.Errorf("put back: the front page says %q, want %q", got, before)
	}
	if got := planned(t, dir); got != plan {
		t.Error("put back: the plan is not the old one")
	}
	p.quiet()
}

// found adds a column that says when the findings were found.
func found(list string) string {
	var out []string
	for i, line := range strings.Split(strings.TrimSpace(list), "\n") {
		if i == 0 {
			line += ",Found at"
		} else {
			line += ",blast"
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}
