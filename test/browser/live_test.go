package browser

import (
	"testing"
	"time"
)

// TestLive keeps a change on one tablet and watches it arrive on another.
func TestLive(t *testing.T) {
	s := demoIn(t, t.TempDir())
	board, hand := tablet(t, s.url), tablet(t, s.url)
	board.open("/b/pedlar/clocking")
	board.until("the stream is open", `document.querySelector("[data-live-stream]")?._htmx?.sse`)
	hand.open("/b/pedlar/clocking")
	hand.follow(hand.labelled(".clocking-name", "MW"))
	began := time.Now()
	hand.tap(".clocking-tasks button")
	board.until("MW at work on the other tablet", `[...document.querySelectorAll(".clocking-running")].some((e) => e.innerText.includes("MW"))`)
	took := time.Since(began)
	t.Logf("touch on one tablet to sight on the other: %d ms", took.Milliseconds())
	if took > 2*time.Second {
		t.Errorf("the change took %v to the other tablet, want at most a second, two on a busy machine", took)
	}
	board.quiet()
	hand.quiet()
}
