package browser

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// panelBench is a tablet with the demo's wing on the moving view.
func panelBench(t *testing.T) *tab {
	t.Helper()
	s := demoIn(t, t.TempDir(), "--until", "2026-10-08")
	p := tablet(t, s.url)
	p.bare()
	p.open("/b/pedlar/metal/surface/U2")
	p.until("the panel moves", `document.querySelector(".surf-live")`)
	p.says("[data-told=sum]", "In one piece")
	return p
}

// board brings both pictures before the person.
func (p *tab) board() {
	p.do(chromedp.Evaluate[chromedp.Void](`document.querySelector(".surf-board").scrollIntoView({ block: "start", behavior: "instant" })`))
}

// glassAt touches a place of a picture, as shares of its width and height.
func (p *tab) glassAt(name string, x, y float64) {
	p.Helper()
	on := eval[point](p, fmt.Sprintf(`(() => { const r = document.querySelector('canvas[data-glass="%s"]').getBoundingClientRect(); return { X: r.x + %g * r.width, Y: r.y + %g * r.height } })()`, name, x, y))
	p.do(chromedp.TapXY(on.X, on.Y))
}

// drawn waits until the numbers tell of a cut, or of none.
func (p *tab) drawn(is bool) {
	p.Helper()
	p.until(fmt.Sprintf("a cut is drawn: %t", is), fmt.Sprintf(`document.querySelector("[data-told=numbers]").textContent.includes("1, drawn") === %t && !document.querySelector("[aria-busy]")`, is))
}

// TestAPanelIsCutByTouch reads the blister, draws a relief cut from the rim by
// touch, takes it back, and keeps the sheet as a blank by the slip.
func TestAPanelIsCutByTouch(t *testing.T) {
	p := panelBench(t)
	p.board()
	p.glassAt("flat", 0.5, 0.42)
	p.says("[data-say]", "area")
	p.says("[data-say]", "thickness")
	before := p.text("[data-told=numbers]")
	p.tap(`[data-act=seam]`)
	p.board()
	p.glassAt("space", 0.9, 0.52)
	p.says("[data-say]", "The cut begins here")
	p.glassAt("space", 0.62, 0.5)
	p.drawn(true)
	if after := p.text("[data-told=numbers]"); after == before {
		t.Error("the numbers did not follow the cut")
	}
	p.shoot("panel-cut")
	p.tap(`[data-act=undo]`)
	p.drawn(false)
	p.tap(`[data-act=redo]`)
	p.drawn(true)
	if cuts := eval[string](p, `document.querySelector("[data-told=keep] [name=cuts]").value`); !strings.Contains(cuts, " ") {
		t.Errorf("the blank would be kept without the cut: %q", cuts)
	}
	p.follow(p.labelled("button", "Its true shape on the list"))
	p.says("main", "front wing, lower rear corner")
}

// TestAPanelIsCutByKeys walks a cut along the edges without a finger.
func TestAPanelIsCutByKeys(t *testing.T) {
	p := panelBench(t)
	p.do(chromedp.Evaluate[chromedp.Void](`document.querySelector('canvas[data-glass="space"]').focus()`))
	p.press("s", kb.Enter, kb.ArrowRight, kb.ArrowRight, kb.ArrowRight, kb.Enter)
	p.drawn(true)
	p.press("n", kb.Delete)
	p.until("no cut is left", `document.querySelector("[name=cuts]").value === ""`)
}

// TestAPanelIsCutInNumbers types a cut where no script runs.
func TestAPanelIsCutInNumbers(t *testing.T) {
	p := panelBench(t)
	p.open("/b/pedlar/metal/surface/U2?cuts=1202+833")
	p.drawn(true)
	if got := eval[string](p, `document.querySelector("[name=cuts]").value`); strings.TrimSpace(got) != "1202 833" {
		t.Errorf("the field has %q", got)
	}
	p.audited("panel-cut-typed")
}
