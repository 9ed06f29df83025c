package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// plain switches the script of the pages off; what a test asks the page still
// runs.
func (p *tab) plain() {
	p.Helper()
	_, err := chromedp.Call(p.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.must("script off", err)
}

// TestWithoutScript opens every plate with script off and records a finding
// through plain forms.
func TestWithoutScript(t *testing.T) {
	s := demoIn(t, t.TempDir())
	p := tablet(t, s.url)
	p.plain()
	for _, c := range []struct{ path, holds string }{
		{"van", "11 Feb 2027"}, {"metal", "31 findings"}, {"stores", "Q01"}, {"away", "Engraving"}, {"wall", "T08"}, {"tin", "£44,470"},
		{"today", "Tue 6 Oct 2026"}, {"clocking", "Metalworker"}, {"journal", "5 Oct"}, {"read-in", "paste"}, {"people", "Saturdays"},
		{doorsMix[1:], "536"}, {"paint", "17.56"}, {"paint/tin/N08", "1.00 l of 1.00 l"}, {"paint/tins", "two batches"}, {"paint/product/base-slackwater", "1 : 0.8"},
		{"paint/may-spray?product=clear&air=17&rh=72&metal=13.5", "13.5 − 11.9 = 1.6 °C, at least 3"}, {"paint/clocks", "Clocks"}, {sprayDay[1:], "Epoxy EP, coat 2 on Upper body"}, {"paint/redo", "Working days lost"},
		{"look", "L 91.1"}, {"look/new", "Break line"}, {"look/paint/base-limewash?over=sealer-black", "8.1 l instead of 4.2 l"}, {"look/card", "Gun"},
	} {
		p.open("/b/pedlar/" + c.path)
		if got := p.text("main"); len(got) < 60 || !strings.Contains(got, c.holds) {
			t.Errorf("%s without script: %q is missing; it says %.300s", c.path, c.holds, got)
		}
	}
	if eval[bool](p, `!!document.querySelector("[data-live-stream]")?._htmx`) {
		t.Fatal("script runs, so this shows nothing")
	}
	p.open("/b/pedlar/metal")
	p.follow("[data-panel=P41]")
	if !strings.Contains(p.where(), "/new") {
		p.follow(p.labelled("a", "Record one here"))
	}
	p.tap("input[value=pinholes] + .choice-word")
	p.write("#width", "240")
	p.write("#height", "160")
	p.follow(p.labelled("button", "On my slip"))
	p.says("#slipbar", "1 change on your slip, not kept yet")
	p.follow("#slipbar a")
	p.says(".slip", "Finding F32 on body side lower front, left: pinholes, 240 × 160 mm")
	p.follow(".button-keep")
	p.says(".undo", "Kept")
	p.open("/b/pedlar/metal/findings")
	p.says("main", "F32")
	p.follow(p.labelled(".plate", "Clocking"))
	p.follow(p.labelled(".clocking-name", "MW"))
	p.follow(".clocking-tasks button")
	p.says(".clocking-running", "MW")
	p.quiet()
}
