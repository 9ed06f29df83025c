package browser

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"fettle/geom"
)

// traceBench is a tablet with a photo of a hide that is not drawn yet.
func traceBench(t *testing.T) *tab {
	t.Helper()
	s := demoIn(t, t.TempDir(), "--until", "2026-10-09")
	p := tablet(t, s.url)
	p.bare()
	p.do(p.sized(1024, 1366))
	p.open("/b/pedlar/trim/hide/H4/photo")
	p.says("main", "No photo of this hide yet")
	p.do(chromedp.SetUploadFiles(chromedp.CSS("#photo"), []string{aShot.take(t)}))
	p.follow(p.labelled("button", "Trace it"))
	p.live()
	return p
}

func (p *tab) live() {
	p.Helper()
	p.until("the photo is there to be traced", `document.querySelector(".trace-live") && document.querySelector("[data-picture]").hasAttribute("tabindex")`)
}

// touchAt touches what the photo shows of a point of the floor.
func (p *tab) touchAt(at geom.Point) {
	p.Helper()
	px := aShot.pixel(at)
	p.must("touch the photo", p.try(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		on, err := ask[point](p, onScreen(px))
		if err != nil {
			return err
		}
		_, err = chromedp.TapXY(on.X, on.Y)(ctx, t)
		return err
	})))
}

func (p *tab) tool(name string) {
	p.Helper()
	p.tap(fmt.Sprintf(`[data-tool=%q]`, name))
	p.do(chromedp.Evaluate[chromedp.Void](`document.querySelector("[data-stage]").scrollIntoView({ block: "center", behavior: "instant" })`))
}

// aims holds a finger on a marked point: it is seen larger beside the finger, and
// stays where it is.
func (p *tab) aims(at geom.Point) {
	p.Helper()
	before := eval[string](p, `document.querySelector('[name="reference"]').value`)
	px := aShot.pixel(at)
	on := eval[point](p, onScreen(px))
	p.fingers("touchStart", point{on.X + 6, on.Y + 5})
	p.until("the magnifier shows", `!document.querySelector("[data-loupe]").hasAttribute("hidden")`)
	p.shoot("aims")
	p.fingers("touchEnd")
	p.says("[data-say]", "Point 3 is picked.")
	if got := eval[string](p, `document.querySelector('[name="reference"]').value`); got != before {
		p.Errorf("held only, the reference moved from %q to %q", before, got)
	}
}

// pinches widens the view with two fingers and marks nothing by it.
func (p *tab) pinches() {
	p.Helper()
	state := `document.querySelector('[name="reference"]').value`
	wide := `document.querySelector("[data-picture]").viewBox.baseVal.width`
	before, was := eval[string](p, state), eval[float64](p, wide)
	mid := eval[point](p, onScreen(geom.Point{X: aShot.w / 2, Y: aShot.h / 2}))
	p.fingers("touchStart", point{mid.X - 60, mid.Y})
	for n := range 6 {
		far := 60 + 20*float64(n)
		kind := input.DispatchTouchEventType("touchMove")
		if n == 0 {
			kind = "touchStart"
		}
		p.fingers(kind, point{mid.X - far, mid.Y}, point{mid.X + far, mid.Y})
	}
	p.fingers("touchEnd")
	if now := eval[float64](p, wide); now > was*0.5 || eval[string](p, state) != before {
		p.Errorf("pinched from %.0f to %.0f pixels across, the reference %q to %q", was, now, before, eval[string](p, state))
	}
	p.press("0")
}

// fingers sends one event of all fingers that are down.
func (p *tab) fingers(kind input.DispatchTouchEventType, at ...point) {
	p.Helper()
	points := []*input.TouchPoint{}
	for i, f := range at {
		points = append(points, &input.TouchPoint{X: f.X, Y: f.Y, ID: new(float64(i))})
	}
	_, err := chromedp.Call(p.ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points})
	p.must("touch the photo", err)
}

// onScreen is the script that tells where a pixel of the photo is on the screen.
func onScreen(px geom.Point) string {
	return fmt.Sprintf(`(() => {
		const at = new DOMPoint(%f, %f).matrixTransform(document.querySelector("[data-picture]").getScreenCTM());
		return { X: at.x, Y: at.y };
	})()`, px.X, px.Y)
}

// TestTrace traces a hide on a photo by touch and finds its area within the
// error that is stated; the draft outlives the page, and the change goes on the
// slip.
func TestTrace(t *testing.T) {
	p := traceBench(t)
	p.write(`[name="across"]`, "2700")
	p.write(`[name="up"]`, "2300")
	p.tool("reference")
	for _, c := range floorBox {
		p.touchAt(c)
	}
	p.says("[data-say]", "4 of 4 marked.")
	p.aims(floorBox[2])
	p.pinches()
	p.tool("straight")
	for i, c := range floorBox[:2] {
		for n := range 5 {
			p.touchAt(c.Add(floorBox[i+1].Sub(c).Scale(0.05 + 0.9*float64(n)/4)))
		}
		p.press("x")
	}
	p.tool("outline")
	traced := floorHide(40)
	for _, c := range traced {
		p.touchAt(c)
	}
	p.says(`[data-tool="outline"]`, "40")
	p.tool("faults")
	p.touchAt(geom.Point{X: 300, Y: 200})
	p.touchAt(geom.Point{X: 380, Y: 200})
	p.tool("stretch")
	p.touchAt(geom.Point{X: -700})
	p.touchAt(geom.Point{X: 700})
	p.tool("checks")
	p.write(`[name="size"]`, "2700")
	p.tool("checks")
	p.touchAt(floorBox[3])
	p.touchAt(floorBox[2])
	p.open("/b/pedlar/trim/hide/H4/photo")
	p.follow(".trace-photo")
	p.live()
	p.says("[data-say]", "Your draft goes on")
	p.says(`[data-tool="outline"]`, "40")
	p.tap(p.labelled("button", "Work it out"))
	p.until("the photo is worked out", `document.querySelector("[data-found] [data-sum]")`)
	p.says("[data-found]", "they agree")
	for _, size := range [][2]int64{{768, 1024}, {1024, 1366}} {
		p.do(p.sized(size[0], size[1]))
		p.do(chromedp.Evaluate[chromedp.Void]("void scrollTo(0, 0)"))
		p.shoot(fmt.Sprintf("%d-top", size[0]))
		p.do(chromedp.Evaluate[chromedp.Void](`document.querySelector("[data-found]").scrollIntoView()`))
		p.shoot(fmt.Sprintf("%d-found", size[0]))
	}
	var got, off, within float64
	if _, err := fmt.Sscanf(eval[string](p, `document.querySelector("[data-found] .figure").innerText.replace(/\s+/g, " ")`), "%f ± %f", &got, &off); err != nil {
		t.Fatal(err)
	}
	if _, err := fmt.Sscanf(eval[string](p, `document.querySelector("[data-sum] b").innerText`), "%f", &within); err != nil {
		t.Fatal(err)
	}
	want := math.Abs(geom.RingArea(traced)) / 1e6
	t.Logf("%.2f ± %.2f m² of %.3f, the line within %.0f mm", got, off, want, within)
	if math.Abs(got-want) > off+0.005 || off > 0.15 || within > 40 {
		t.Errorf("%.2f ± %.2f m², want %.3f; the line within %.0f mm", got, off, want, within)
	}
	p.follow(p.labelled("button", "Use this"))
	p.says("main", "Hide H4 drawn")
	p.says("main", "Hide H4: hole of")
	p.quiet()
}

// TestTrace_Keyboard marks, moves and takes off a point by keys alone, and is
// clean for axe.
func TestTrace_Keyboard(t *testing.T) {
	p := traceBench(t)
	p.tabTo("[data-picture]")
	p.press(kb.ArrowLeft, kb.ArrowUp, kb.Enter, kb.ArrowRight, kb.ArrowRight, kb.Enter)
	p.says("[data-say]", "2 of 4 marked.")
	p.press("n", kb.ArrowDown)
	before := eval[string](p, `document.querySelector('[name="reference"]').value`)
	p.press(kb.Delete)
	p.says(`[data-tool="reference"]`, "1")
	p.press("3")
	p.until("the outline is in hand", `document.querySelector('[data-tool="outline"]').getAttribute("aria-pressed") === "true"`)
	p.must("undo", p.try(chromedp.KeyEvent("z", chromedp.KeyModifiers(2))))
	if got := eval[string](p, `document.querySelector('[name="reference"]').value`); got != before {
		t.Errorf("after undo the reference is %q, want %q", got, before)
	}
	p.finds()
	p.audited("trace")
	p.saw.clear()
	p.do(chromedp.Reload())
	p.live()
	if n := p.saw.weight(); n == 0 || n > most {
		t.Errorf("the page takes in %d bytes of script, want at most %d", n, most)
	}
	p.quiet()
}

// finds has the edge found in the picture: all of it within 20 mm of the truth.
func (p *tab) finds() {
	p.Helper()
	p.tap(`[data-act="find"]`)
	p.until("an edge is found", `document.querySelector("[data-say]").innerText.includes("found, as a start")`)
	truth := geom.Ring(floorHide(240))
	worst, n := 0.0, 0
	for line := range strings.Lines(eval[string](p, `document.querySelector('[name="outline"]').value`)) {
		var x, y float64
		if _, err := fmt.Sscan(line, &x, &y); err != nil {
			p.Fatal(err)
		}
		worst, n = max(worst, truth.Distance(aShot.floor(x, y))), n+1
	}
	p.Logf("%d points found, the worst %.1f mm beside the edge", n, worst)
	if n < 20 || worst > 20 {
		p.Errorf("%d points found, the worst %.1f mm beside the edge", n, worst)
	}
}

// TestTrace_Plain types what is marked, where no script runs.
func TestTrace_Plain(t *testing.T) {
	s := demoIn(t, t.TempDir(), "--until", "2026-10-09")
	p := tablet(t, s.url)
	p.plain()
	p.open("/b/pedlar/trim/hide/H4/photo")
	p.do(chromedp.SetUploadFiles(chromedp.CSS("#photo"), []string{aShot.take(t)}))
	p.follow(p.labelled("button", "Trace it"))
	p.write(`[name="across"]`, "2700")
	p.write(`[name="up"]`, "2300")
	p.tap(".trace summary")
	for name, ring := range map[string][]geom.Point{"reference": floorBox, "outline": floorHide(40)} {
		text := ""
		for _, c := range ring {
			px := aShot.pixel(c)
			text += fmt.Sprintf("%.1f %.1f\n", px.X, px.Y)
		}
		p.tap(fmt.Sprintf("[name=%q]", name))
		p.paste(text)
	}
	p.follow(p.labelled("button", "Work it out"))
	p.says("[data-found]", "how far the line may be off")
	p.shoot("plain")
	p.follow(p.labelled("button", "Use this"))
	p.says("main", "Hide H4 drawn")
	p.quiet()
}
