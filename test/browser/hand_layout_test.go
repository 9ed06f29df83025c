package browser

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// handPath is where the demo's tan leather is laid by hand.
const handPath = "/b/pedlar/trim/lay/tan%20leather/hand"

// layBench is a tablet with the bench of the demo's hides on the day after they
// were drawn.
func layBench(t *testing.T) *tab {
	t.Helper()
	s := demoIn(t, t.TempDir(), "--until", "2026-10-09")
	p := tablet(t, s.url)
	p.bare()
	p.open(handPath)
	p.until("the editor is live", `document.querySelector(".lay-live")`)
	return p
}

// TestLayByHand lays a piece, has it checked exactly, and keeps the plan
// through the knock-on; what was laid is there again when the page is.
func TestLayByHand(t *testing.T) {
	p := layBench(t)
	p.says("[data-left]", "49 of 50 not laid yet")
	p.tap(`[data-tray="T04"]`)
	p.until("T04 is laid", `document.querySelector('[name="sheet-T04"]').value === "H1"`)
	p.says("[data-none]", "Nothing overlaps")
	p.tap(p.labelled("button", "Check"))
	p.until("the exact checker has spoken", `document.querySelector("[data-found] [data-sum]")`)
	p.says("[data-found]", "Nothing is wrong")
	p.says("[data-say]", "Nothing is wrong")

	p.tap(`[data-tray="T07"]`)
	p.until("T07 is laid over it", `document.querySelector("[data-faults]").innerText.includes("T07 overlaps T04")`)
	p.tap(p.labelled("button", "Check"))
	p.until("the exact checker speaks again", `document.querySelector("[data-found] [data-pick]")`)
	p.says("[data-found]", "T07")
	p.follow(p.labelled("button", "Keep this plan"))
	p.until("what overlaps is not kept", `location.pathname.endsWith("/hand") && document.querySelector("[data-found] [data-pick]") && document.querySelector(".lay-live")`)
	p.do(p.finger(`g[data-copy="T07"]`))
	p.until("T07 is in hand", `document.querySelector('[data-card="T07"]').checkVisibility()`)
	p.tap(`[data-act="off"]`)
	p.until("T07 is in the tray", `document.querySelector('[name="sheet-T07"]').value === ""`)
	p.follow(p.labelled("button", "Keep this plan"))
	p.says("main", "Cut plan of tan leather: 2 pieces on 2 hides")
	p.open(handPath)
	p.until("the editor is live", `document.querySelector(".lay-live")`)
	p.says("[data-left]", "48 of 50 not laid yet")
	p.quiet("422")
}

// TestLayByHand_Looks is clean for axe in every light, prints, and shows
// without script what there is to type.
func TestLayByHand_Looks(t *testing.T) {
	p := layBench(t)
	if n := p.saw.weight(); n == 0 || n > most {
		t.Errorf("the page takes in %d bytes of script, want at most %d", n, most)
	}
	p.tap(`[data-tray="T04"]`)
	p.tap(`[data-tray="T07"]`)
	p.until("T07 lies over T04", `document.querySelector("[data-faults]").innerText.includes("T07 overlaps T04")`)
	for _, size := range [][2]int64{{768, 1024}, {1024, 1366}} {
		p.do(p.sized(size[0], size[1]))
		for _, light := range []string{"day", "bright", "night"} {
			p.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf("void (document.documentElement.dataset.theme = %q)", light)))
			p.shoot(fmt.Sprintf("%d-%s", size[0], light))
		}
	}
	p.do(p.sized(tabletWidth, tabletHeight))
	p.audited("hand")
	text := strings.Join(p.paper("hand", handPath), " ")
	for _, want := range []string{"Hide H1", "Hide H3", "T21", "Larkmere Pedlar 10-cwt van"} {
		if !strings.Contains(text, want) {
			t.Errorf("on paper %q is missing; it says %.400s", want, text)
		}
	}
	p.quiet()
}

// TestLayByHand_Keyboard goes from the tray to a laid, turned and locked piece
// by keys alone.
func TestLayByHand_Keyboard(t *testing.T) {
	p := layBench(t)
	p.tabTo(`[data-tray="T04"]`)
	p.press(kb.Enter, kb.ArrowRight, "]", "l")
	p.until("T04 is laid and locked", `document.querySelector('[name="lock-T04"]').checked`)
	p.says("[data-say]", "T04 locked.")
	p.seen(`g[data-copy="T04"]`)
	p.quiet()
}

// TestLayByHand_Plain types a place in numbers where no script runs, has it
// checked, and keeps it.
func TestLayByHand_Plain(t *testing.T) {
	s := demoIn(t, t.TempDir(), "--until", "2026-10-09")
	p := tablet(t, s.url)
	p.plain()
	p.open(handPath)
	p.says("main", "Hide H3, ")
	p.do(chromedp.Evaluate[chromedp.Void](`void (document.querySelector('[name="sheet-T04"]').value = "H2")`))
	for name, value := range map[string]string{"x": "900", "y": "1200", "turn": "90"} {
		p.write(fmt.Sprintf(`[name="%s-T04"]`, name), value)
	}
	p.shoot("typed")
	p.follow(p.labelled("button", "Check"))
	p.says("[data-found]", "Nothing is wrong")
	if got := eval[string](p, `document.querySelector('[name="x-T04"]').value`); got != "900" {
		t.Errorf("after the check x says %q", got)
	}
	p.follow(p.labelled("button", "Keep this plan"))
	p.says("main", "Cut plan of tan leather: 2 pieces on 2 hides")
	p.quiet()
}
