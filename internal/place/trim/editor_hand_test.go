package trim

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// light shows the page in a light.
func (g *glass) light(name string) {
	g.script(fmt.Sprintf("document.documentElement.dataset.theme = %q", name))
}

// TestEditor_Drag lays a piece over another by a finger: the words say so while
// it lies there, and undo and redo bring it back and there again.
func TestEditor_Drag(t *testing.T) {
	g := open(t, "/bench")
	over, from := g.middleOf(`g[data-copy="T01"]`), g.middleOf(`g[data-copy="T02.1"]`)
	g.drag(over.X-from.X, over.Y-from.Y, from)
	at := g.place("T02.1")
	if at == "H1 1500 600 90" {
		t.Fatal("the piece has not moved")
	}
	g.says("[data-faults]", "T02.1 overlaps T01")
	g.says(`g[data-copy="T02.1"] [data-word]`, "")
	var word string
	g.eval(`document.querySelector('g[data-copy="T02.1"] [data-word]').textContent`, &word)
	if word != "overlaps T01" {
		t.Errorf("on the piece stands %q, want that it overlaps T01", word)
	}
	g.tap(`[data-act="undo"]`)
	g.lies("T02.1", "H1 1500 600 90")
	g.says("[data-none]", "Nothing overlaps")
	g.tap(`[data-act="redo"]`)
	g.lies("T02.1", at)
	g.shoot("editor-overlap")
}

// TestEditor_Turn turns by the handle and by two fingers, within the tolerance
// of the piece's tight direction and, for another, to listed angles only.
func TestEditor_Turn(t *testing.T) {
	g := open(t, "/bench")
	g.tap(`g[data-copy="T01"]`)
	g.until(`document.querySelector("[data-handle]")`)
	handle := g.middleOf("[data-handle]")
	g.drag(0, -60, handle)
	if got := g.place("T01"); !strings.HasSuffix(got, " 80") {
		t.Errorf("turned far by the handle it lies at %s, want 80°, the end of its tolerance", got)
	}
	g.tap(`[data-act="clock"]`)
	g.says("[data-say]", "T01 keeps its tight direction within 10° of the hide's: 80° to 100° here.")
	g.tap(`[data-act="antiFine"]`)
	g.comes(func() string { return g.place("T01") }, func(got string) bool { return strings.HasSuffix(got, " 80.5") }, "80.5°")
	m := g.middleOf(`g[data-copy="T01"]`)
	g.touch("touchStart", spot{m.X - 20, m.Y}, spot{m.X + 20, m.Y})
	g.touch("touchMove", spot{m.X - 20, m.Y + 1}, spot{m.X + 20, m.Y - 1})
	g.touch("touchMove", spot{m.X - 19, m.Y + 4}, spot{m.X + 19, m.Y - 4})
	g.touch("touchEnd")
	if got := g.place("T01"); strings.HasSuffix(got, " 80.5") || strings.HasSuffix(got, " 80") {
		t.Errorf("turned by two fingers it lies at %s still", got)
	}
	g.hideTwo()
	g.tap(`g[data-copy="T29"]`)
	g.tap(`[data-act="lock"]`)
	g.says("[data-say]", "T29 unlocked.")
	g.tap(`[data-act="anti"]`)
	g.lies("T29", "H2 1140 1080 180")
	g.script(`(() => { const f = document.querySelector('[name="turn-T29"]'); f.value = "200"; f.dispatchEvent(new Event("change", {bubbles: true})) })()`)
	g.says("[data-say]", "T29 may lie at 0°, 90°, 180°, 270° only.")
}

// hideTwo turns to the second hide.
func (g *glass) hideTwo() {
	g.tap(`[data-show="H2"]`)
	g.says("[data-laid]", "of Hide H2")
}

// TestEditor_Lock holds a locked piece in place against finger and key.
func TestEditor_Lock(t *testing.T) {
	g := open(t, "/bench")
	g.hideTwo()
	m := g.middleOf(`g[data-copy="T29"]`)
	g.drag(60, 40, m)
	g.says("[data-say]", "T29 is locked. Unlock it first.")
	g.lies("T29", "H2 1100 500 90 locked")
	g.tap(`[name="lock-T29"]`)
	g.lies("T29", "H2 1100 500 90")
	g.drag(60, 0, g.middleOf(`g[data-copy="T29"]`))
	if got := g.place("T29"); got == "H2 1100 500 90" || strings.HasSuffix(got, "locked") {
		t.Errorf("unlocked and dragged it lies at %s", got)
	}
}

// TestEditor_Sheets moves a piece to the other hide by its card: its mate is on
// the first.
func TestEditor_Sheets(t *testing.T) {
	g := open(t, "/bench")
	g.tap(`g[data-copy="T02.1"]`)
	g.tap(`[data-tray="T02.2"]`)
	g.until(`document.querySelector('[data-card="T02.2"]').checkVisibility()`)
	g.script(`(() => { const f = document.querySelector('[name="sheet-T02.2"]'); f.value = "H2"; f.dispatchEvent(new Event("change", {bubbles: true})) })()`)
	g.says("[data-laid]", "of Hide H2")
	g.says("[data-faults]", "T02.1 not on the sheet of T02.2 (Hide H1)")
	g.until(`document.querySelector('svg[data-sheet="H2"]').contains(document.querySelector('g[data-copy="T02.2"]'))`)
}

// TestEditor_KeepOut draws one by taps, finds the piece on it, and deletes it.
func TestEditor_KeepOut(t *testing.T) {
	g := open(t, "/bench")
	g.tap(`[data-act="out"]`)
	g.says("[data-say]", "Tap the corners")
	m := g.middleOf(`g[data-copy="T01"]`)
	for _, d := range []spot{{40, -40}, {110, -40}, {110, 40}, {40, 40}, {40, -40}} {
		g.tapAt(spot{m.X + d.X, m.Y + d.Y})
	}
	g.says("[data-say]", "Keep-out drawn.")
	g.says("[data-faults]", "T01 lies on a keep-out")
	var lines string
	g.eval(`document.querySelector('[name="outs-H1"]').value`, &lines)
	if strings.Count(lines, ",") != 3 {
		t.Errorf("its field says %q, want four corners", lines)
	}
	if now := g.middleOf(`g[data-copy="T01"]`); now != m {
		t.Errorf("the drawing has moved on the glass from %v to %v", m, now)
	}
	g.tapAt(spot{m.X + 95, m.Y})
	g.until(`document.querySelector(".lay-out.lay-picked")`)
	g.tap(`[data-act="off"]`)
	g.says("[data-say]", "Keep-out taken away.")
	g.says("[data-none]", "Nothing overlaps")
}

// TestEditor_Keyboard lays, moves, slides, turns, locks and takes off a piece
// without a finger.
func TestEditor_Keyboard(t *testing.T) {
	g := open(t, "/bench")
	g.tabTo(`[data-tray="T02.2"]`)
	g.keys(kb.Enter)
	if got := g.place("T02.2"); !strings.HasPrefix(got, "H1 ") {
		t.Fatalf("from the tray it went to %s", got)
	}
	var on bool
	if g.eval(`document.activeElement.matches('g[data-copy="T02.2"]')`, &on); !on {
		t.Error("the piece laid down does not have the focus")
	}
	field := func(name string) float64 {
		var v float64
		g.eval(fmt.Sprintf(`Number(document.querySelector('[name="%s-T02.2"]').value)`, name), &v)
		return v
	}
	x, y := field("x"), field("y")
	g.keys(kb.ArrowRight, kb.ArrowUp)
	if got := [2]float64{field("x") - x, field("y") - y}; !near(got[0], 1) || !near(got[1], 1) {
		t.Errorf("an arrow each way moved it by %v mm, want 1 and 1", got)
	}
	g.do(chromedp.KeyEvent(kb.ArrowLeft, chromedp.KeyModifiers(chromedp.ModifierShift)))
	if got := field("x") - x; !near(got, -9) {
		t.Errorf("with shift it lies %v mm on, want -9", got)
	}
	g.says("[data-say]", "T02.2 at ")
	g.do(chromedp.KeyEvent(kb.ArrowUp, chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	g.do(chromedp.KeyEvent(kb.ArrowUp, chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	g.says("[data-none]", "Nothing overlaps")
	g.keys(kb.ArrowUp)
	g.says("[data-faults]", "T02.2")
	g.do(chromedp.KeyEvent(kb.ArrowDown, chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	g.says("[data-none]", "Nothing overlaps")
	turn := field("turn")
	g.keys("]")
	if got := field("turn"); !near(got, turn-5) {
		t.Errorf("] turned from %v to %v", turn, got)
	}
	g.keys("l")
	g.keys(kb.Delete)
	g.says("[data-say]", "T02.2 is locked. Unlock it first.")
	g.keys("l", kb.Delete)
	if got := g.place("T02.2"); !strings.HasPrefix(got, "tray") {
		t.Errorf("taken off it lies at %s", got)
	}
	g.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	if got := g.place("T02.2"); !strings.HasPrefix(got, "H1") {
		t.Errorf("one step back it lies at %s", got)
	}
}

func near(a, b float64) bool { return max(a-b, b-a) < 0.011 }

// tabTo presses Tab until an element has the focus.
func (g *glass) tabTo(css string) {
	g.Helper()
	for range 60 {
		g.keys(kb.Tab)
		var on bool
		if g.eval(fmt.Sprintf("document.activeElement.matches(%q)", css), &on); on {
			return
		}
	}
	g.Fatalf("Tab does not reach %s", css)
}

// TestEditor_Draft loses nothing when the page is loaded anew.
func TestEditor_Draft(t *testing.T) {
	g := open(t, "/bench")
	g.tap(`[data-tray="T06"]`)
	g.says("[data-none]", "Nothing overlaps")
	g.until(`document.querySelector('[name="sheet-T06"]').value`)
	at := g.place("T06")
	g.do(chromedp.Reload())
	g.until(`document.querySelector(".lay-live")`)
	if got := g.place("T06"); got != at || strings.HasPrefix(got, "tray") {
		t.Errorf("loaded anew it lies at %s, want %s", got, at)
	}
	g.says("[data-say]", "Your draft goes on where you left it.")
	g.tap(`[data-act="undo"]`)
	g.lies("T06", "tray 0 0 0")
}

// TestEditor_View pinches closer around the fingers, pans, and fits again.
func TestEditor_View(t *testing.T) {
	g := open(t, "/bench")
	box := func() string {
		var got string
		g.eval(`document.querySelector('svg[data-sheet="H1"]').getAttribute("viewBox")`, &got)
		return got
	}
	whole := box()
	m := g.middleOf(`svg[data-sheet="H1"]`)
	g.touch("touchStart", spot{m.X - 40, m.Y - 130}, spot{m.X + 40, m.Y - 130})
	for i := range 8 {
		g.touch("touchMove", spot{m.X - 40 - 8*float64(i), m.Y - 130}, spot{m.X + 40 + 8*float64(i), m.Y - 130})
	}
	g.touch("touchEnd")
	closer := box()
	var w, w2, none float64
	fmt.Sscan(whole, &none, &none, &w)
	fmt.Sscan(closer, &none, &none, &w2)
	if w2 > w*0.6 || w2 < w*0.3 {
		t.Errorf("pinched from 80 to 192 px the view is %.0f of %.0f mm wide", w2, w)
	}
	g.drag(-50, 0, spot{m.X, m.Y - 130})
	if box() == closer {
		t.Error("the view is not panned")
	}
	g.tap(`[data-act="fit"]`)
	g.comes(box, func(got string) bool { return got == whole }, whole)
}

// TestEditor_Fast drags one of a hundred pieces of forty corners and logs what
// the longest pictures took, script, layout and paint; a sixtieth of a second is
// 16.7 ms.
func TestEditor_Fast(t *testing.T) {
	g := open(t, "/many")
	m := g.middleOf(`g[data-copy="P44"]`)
	g.script(`(() => { window.slow = []; const f = (a) => requestAnimationFrame((b) => { const c = new MessageChannel(), at = performance.now(); c.port1.onmessage = () => window.slow.push(performance.now() - at); c.port2.postMessage(0); f(b) }); f(performance.now()) })()`)
	g.drag(120, 60, m)
	g.drag(-40, 30, g.middleOf(`g[data-copy="P44"]`))
	var worst []float64
	g.eval(`window.slow.sort((a, b) => b - a).slice(0, 5)`, &worst)
	t.Logf("the longest pictures took %.1f ms", worst)
	g.says("[data-faults]", "overlaps")
}

// TestEditor_Looks takes pictures in every light and both ways to hold a tablet.
func TestEditor_Looks(t *testing.T) {
	g := open(t, "/bench")
	g.tap(`[data-tray="T06"]`)
	for _, size := range [][2]int64{{768, 1024}, {1024, 1366}, {1180, 820}} {
		g.do(chromedp.EmulateViewport(size[0], size[1], chromedp.EmulateTouch))
		for _, light := range []string{"day", "bright", "night"} {
			g.light(light)
			g.shoot(fmt.Sprintf("editor-%d-%s", size[0], light))
		}
	}
}
