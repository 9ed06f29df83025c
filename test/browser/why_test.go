package browser

import (
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// TestWhyNotByAKey asks why not by a day without a finger: the wait is told,
// the answer comes by itself, a figure opens its working, and the way out is
// one key away.
func TestWhyNotByAKey(t *testing.T) {
	s := demoIn(t, t.TempDir())
	p := tablet(t, s.url)
	p.open("/b/pedlar/wall/why?day=2027-01-15")
	p.until("the answer", `document.querySelector("#why-found .wall-verdict")`)
	p.says("#why-found", "It cannot be met")
	p.says("#why-clash", "Everything is finished by Fri 15 Jan 2027")
	p.says("#why-clash", "in order")
	p.says("#why-helps", "an hour longer every day")
	if n := eval[int](p, `document.querySelectorAll("#why-clash .list-table > tbody > tr").length`); n < 5 || n > 11 {
		t.Errorf("the clash stands in %d lines, want five to eleven", n)
	}
	p.tabTo(`#why-helps .figure`)
	p.press(kb.Enter)
	p.until("the working is open", `document.querySelector("#why-helps .card:popover-open")?.innerText.includes("no more than")`)
	p.press(kb.Escape)
	p.shoot("why-not")
	p.follow(p.labelled("a", "The promised day"))
	p.until("the answer for the promised day", `document.querySelector("#why-found .wall-verdict")`)
	p.says("#why-found", "It can be met")
	p.follow(p.labelled("a", "Ways out: what is offered"))
	p.says("h1", "Ways out")
	p.quiet()
}
