package trim

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestEditor_Looks takes pictures in every light and both ways to hold a tablet.
func TestEditor_Looks(t *testing.T) {
	g := open(t, "/bench")
	g.tap(`g[data-copy="T01"]`)
	for _, size := range [][2]int64{{768, 1024}, {1024, 1366}, {1180, 820}} {
		g.do(chromedp.EmulateViewport(size[0], size[1], chromedp.EmulateTouch))
		for _, light := range []string{"day", "bright", "night"} {
			var none string
			g.eval(fmt.Sprintf("document.documentElement.dataset.theme = %q", light), &none)
			g.shoot(fmt.Sprintf("editor-%d-%s", size[0], light))
		}
	}
}
