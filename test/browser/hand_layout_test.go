package browser

import (
	"fmt"
	"strconv"
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

// change sets fields of the bench as a person would, one after the other.
func (p *tab) change(pairs ...string) {
	p.Helper()
	for i := 0; i+1 < len(pairs); i += 2 {
		p.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`void (() => {
			const f = document.querySelector('[name="%s"]');
			f.value = %q;
			f.dispatchEvent(new Event("change", { bubbles: true }));
		})()`, pairs[i], pairs[i+1])))
	}
}

// over lays T07 a hand's breadth off T01, so that they overlap.
func (p *tab) over() {
	p.Helper()
	at := eval[[]string](p, `["sheet", "x", "y", "turn"].map((of) => document.querySelector('[name="' + of + '-T01"]').value)`)
	x, err := strconv.ParseFloat(at[1], 64)
	if err != nil {
		p.Fatal(err)
	}
	p.change("sheet-T07", at[0], "turn-T07", at[3], "y-T07", at[2], "x-T07", fmt.Sprint(x+100))
	p.until("T07 lies over T01", `document.querySelector("[data-faults]").innerText.includes("T07 overlaps T01")`)
}

// TestLayByHand has the kept plan checked exactly, spoils it, and keeps what is
// left of it through the knock-on; it is there again when the page is.
func TestLayByHand(t *testing.T) {
	p := layBench(t)
	p.says("[data-left]", "every piece is laid")
	p.says("[data-none]", "Nothing overlaps") // the quick answers agree with the engine's on all of its layout
	p.tap(p.labelled("button", "Check"))
	p.until("the exact checker has spoken", `document.querySelector("[data-found] [data-sum]")`)
	p.says("[data-found]", "Nothing is wrong")
	p.says("[data-say]", "Nothing is wrong")

	p.change("sheet-T04", "")
	p.says("[data-left]", "1 of 50 not laid yet")
	p.over()
	p.tap(p.labelled("button", "Check"))
	p.until("the exact checker speaks again", `document.querySelector("[data-found] [data-pick]")`)
	p.says("[data-found]", "T07")
	p.follow(p.labelled("button", "Keep this plan"))
	p.until("what overlaps is not kept", `location.pathname.endsWith("/hand") && document.querySelector("[data-found] [data-pick]") && document.querySelector(".lay-live")`)
	p.change("sheet-T07", "")
	p.says("[data-left]", "2 of 50 not laid yet")
	p.follow(p.labelled("button", "Keep this plan"))
	p.says("main", "Cut plan of tan leather: 48 pieces on 3 hides")
	p.open(handPath)
	p.until("the editor is live", `document.querySelector(".lay-live")`)
	p.says("[data-left]", "2 of 50 not laid yet")
	p.quiet("422")
}

// TestLayByHand_Looks is clean for axe in every light, and prints.
func TestLayByHand_Looks(t *testing.T) {
	p := layBench(t)
	if n := p.saw.weight(); n == 0 || n > most {
		t.Errorf("the page takes in %d bytes of script, want at most %d", n, most)
	}
	p.change("sheet-T04", "")
	p.over()
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
	p.change("sheet-T04", "")
	p.tabTo(`[data-tray="T04"]`)
	p.press(kb.Enter, kb.ArrowRight, "]", "l")
	p.until("T04 is laid and locked", `document.querySelector('[name="lock-T04"]').checked`)
	p.says("[data-say]", "T04 locked")
	p.seen(`g[data-copy="T04"]`)
	p.quiet()
}

// TestLayByHand_Plain takes a piece off where no script runs, has the rest
// checked, and keeps it.
func TestLayByHand_Plain(t *testing.T) {
	s := demoIn(t, t.TempDir(), "--until", "2026-10-09")
	p := tablet(t, s.url)
	p.plain()
	p.open(handPath)
	p.says("main", "Hide H3, ")
	p.do(chromedp.Evaluate[chromedp.Void](`void (document.querySelector('[name="sheet-T04"]').value = "")`))
	p.shoot("typed")
	p.follow(p.labelled("button", "Check"))
	p.says("[data-found]", "Nothing is wrong")
	p.write(`[name="x-T01"]`, "wide")
	p.follow(p.labelled("button", "Check"))
	p.says("main", "is not a number such as 120.5")
	p.open(handPath)
	p.do(chromedp.Evaluate[chromedp.Void](`void (document.querySelector('[name="sheet-T04"]').value = "")`))
	p.follow(p.labelled("button", "Keep this plan"))
	p.says("main", "Cut plan of tan leather: 49 pieces on 3 hides")
	p.quiet("422")
}
