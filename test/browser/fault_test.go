package browser

import (
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// TestFaults sends a form with nothing in it: what is wrong stands beside the
// field, is listed first and has the focus.
func TestFaults(t *testing.T) {
	s := demoIn(t, t.TempDir())
	p := tablet(t, s.url)
	p.open("/b/pedlar/metal/new?panel=P41&x=1750&z=560")
	p.write("#width", "9999999")
	p.follow(p.labelled("button", "On my slip"))
	p.until("the list of faults has the focus", `document.activeElement.matches(".wrong")`)
	p.says(".wrong", "put right")
	p.says("#kind", "What it is")
	p.audited("refused-form")
	p.quiet("422")
	p.open("/b/pedlar/metal/finding/F99")
	p.says("main", "F99")
	p.audited("not-found")
	p.quiet("404")
}

// TestWorking opens the working of a number by keyboard, reads it and closes it.
func TestWorking(t *testing.T) {
	s := demoIn(t, t.TempDir())
	p := tablet(t, s.url)
	p.open("/b/pedlar/van")
	p.tabTo(".figure")
	p.press(kb.Enter)
	p.until("the card opens", `document.querySelector(".card:popover-open")`)
	p.says(".card:popover-open", "Where from")
	p.audited("card")
	p.open("/b/pedlar/van")
	p.tabTo(".figure")
	p.press(kb.Enter)
	p.press(kb.Escape)
	p.until("Escape closes it and gives the focus back", `!document.querySelector(".card:popover-open") && document.activeElement.matches(".figure")`)
	p.quiet()
}
