package browser

import (
	"net/url"
	"strings"
	"testing"
)

// TestOffline clocks on in the dead corner: the server is gone, Clocking opens
// from the tablet's own memory, the touch waits, and arrives exactly once.
func TestOffline(t *testing.T) {
	dir := t.TempDir()
	s := demoIn(t, dir)
	at, err := url.Parse(s.url)
	if err != nil {
		t.Fatal(err)
	}
	clockings := func() int {
		return strings.Count(run(t, "export", "pedlar", "--data", dir), `"clock-on"`)
	}
	before := clockings()
	p := tablet(t, "http://"+at.Host)
	p.open("/b/pedlar/van")
	p.until("the worker takes the tablet over", "navigator.serviceWorker.controller")
	p.open("/b/pedlar/clocking")
	p.follow(p.labelled(".clocking-name", "MW"))
	p.until("the page is remembered", `caches.open("pages-1").then((c) => c.match(location.href)).then(Boolean)`)

	s.kill()
	p.open("/b/pedlar/clocking")
	p.follow(p.labelled(".clocking-name", "MW"))
	task := eval[string](p, `document.querySelector(".clocking-tasks button b").innerText`)
	p.tap(".clocking-tasks button")
	p.until("the entry waits on the tablet", `document.querySelector("[data-outbox-count]").innerText.includes("1 waiting")`)
	p.says("main", "Kept on this tablet. It is sent when the server answers again.")
	p.shoot("waiting")

	second := p.another() // two tabs drain at once; the entry still counts once
	if err := second.try(second.goes("/b/pedlar/clocking")); err != nil {
		t.Fatal(err)
	}
	demoIn(t, dir, "--addr", at.Host)
	p.do(shout("online"))
	second.do(shout("online"))
	p.until("nothing waits any more", `document.querySelector("[data-outbox-count]").innerText === ""`)
	if got := clockings() - before; got != 1 {
		t.Errorf("the entry arrived %d times, want once", got)
	}
	p.open("/b/pedlar/clocking")
	p.says(".clocking-running", task+" since")
	p.shoot("arrived")
}
