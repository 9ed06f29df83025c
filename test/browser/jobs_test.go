package browser

import (
	"testing"
	"time"
)

// TestLongWork asks for a layout on one tablet, sees it under way on another,
// and stops it there: the first keeps what was found.
func TestLongWork(t *testing.T) {
	s := demoIn(t, t.TempDir(), "--until", "2026-10-13")
	bench, office := tablet(t, s.url), tablet(t, s.url)
	office.open("/b/pedlar/trim")
	office.follow(office.labelled("a", "Long work"))
	office.says("main", "Nothing is being worked out")
	office.until("the stream is open", `document.querySelector("[data-live-stream]")?._htmx?.sse`)
	wall := office.another()
	wall.open("/b/pedlar/wall")
	wall.until("the stream is open", `document.querySelector("[data-live-stream]")?._htmx?.sse`)
	eval[bool](wall, `(() => { window.asked = 0; const f = window.fetch; window.fetch = (...a) => { window.asked++; return f(...a); }; return true; })()`)
	bench.bare()
	bench.open("/b/pedlar/trim/lay/tan%20leather")
	bench.tap("#act-ask summary")
	eval[bool](bench, `(() => { const o = document.querySelector("#act-ask [name=steps][value='40000']"); o.checked = true; return true; })()`)
	bench.follow(bench.labelled("button", "Lay them"))
	bench.until("the steps go on", `/[1-9][0-9,]* of 40,000 steps/.test(document.querySelector("#trim-work .progress")?.innerText)`)
	bench.says("#trim-work", "You may leave this page")
	office.until("the work is shown on the other tablet", `/asked by LD at .*/.test(document.querySelector("#work-list .progress")?.innerText) && document.querySelector("#work-list").innerText.includes("Best so far")`)
	if h := eval[float64](office, `document.querySelector("#work-list .progress button").getBoundingClientRect().height`); h < 48 {
		t.Errorf("Stop is %v px high, want at least 48", h)
	}
	office.audited("long-work")
	began := time.Now()
	office.follow(office.labelled("#work-list .progress button", "Stop here"))
	bench.until("the bench sees that it was stopped", `document.querySelector("#trim-work")?.innerText.includes("pieces") && !document.querySelector("#trim-work .progress")`)
	t.Logf("touch on one tablet to stopped on the other: %d ms", time.Since(began).Milliseconds())
	office.until("what came of it", `document.querySelector("#work-ended")?.innerText.includes("stopped; the best so far stands")`)
	if n := eval[int](wall, `window.asked`); n > 0 {
		t.Errorf("a page that shows no work fetched itself %d times", n)
	}
	office.quiet()
	bench.quiet()
	wall.quiet()
}

// TestLongWorkWithoutScript stops work, and asks for it again, through plain forms.
func TestLongWorkWithoutScript(t *testing.T) {
	s := demoIn(t, t.TempDir(), "--until", "2026-10-13")
	p := tablet(t, s.url)
	p.plain()
	p.open("/b/pedlar/trim/lay/tan%20leather?open=ask")
	p.tap("#act-ask summary")
	eval[bool](p, `(() => { document.querySelector("#act-ask [name=steps][value='40000']").checked = true; return true; })()`)
	p.follow(p.labelled("button", "Lay them"))
	p.says("#trim-work", "Look again")
	p.follow(p.labelled("a", "long work"))
	p.says("#work-list", "layout of tan leather")
	p.follow(p.labelled("#work-list .progress button", "Stop here"))
	p.says("#work-list", "stopped; the best so far stands")
	p.follow(p.labelled("#work-list button", "Again"))
	p.says("#trim-work", "Stop here")
}
