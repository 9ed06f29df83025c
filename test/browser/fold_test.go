package browser

import "testing"

// TestAFoldIsDrawnFromItsFinishedSizes draws a channel by touch and keys, and
// finds its flat size on the sketch.
func TestAFoldIsDrawnFromItsFinishedSizes(t *testing.T) {
	s := demoIn(t, t.TempDir(), "--until", "2026-10-08")
	p := tablet(t, s.url)
	p.bare()
	p.open("/b/pedlar/metal/folds")
	p.follow(p.labelled("a", "Draw a folded blank"))
	p.follow(p.labelled("a", "Channel"))
	p.write("#fold-name", "seat rail")
	p.follow(p.labelled("button", "Draw it, on my slip"))
	p.says(".metal-fold-paper", "Nothing hits")
	p.says(".metal-steps", "Bend 1, 90° up")
}

// TestAccessibilityOfFolds goes through the pages of folds and panels.
func TestAccessibilityOfFolds(t *testing.T) {
	s := demoIn(t, t.TempDir(), "--until", "2026-10-08")
	p := tablet(t, s.url)
	p.bare()
	for _, c := range []struct{ name, path string }{{"folds", "/folds"}, {"fold", "/fold/B01"}, {"fold-paper", "/fold/B03?as=paper"}, {"fold-new", "/fold?shape=hat"}, {"panels", "/surfaces"}, {"panel-new", "/surface"}, {"panel", "/surface/U2"}, {"blank-bead", "/sheets/blank/B02?bead-width=30&bead-depth=3"}} {
		t.Run(c.name, func(t *testing.T) {
			q := *p
			q.T = t
			q.saw.clear()
			q.open("/b/pedlar/metal" + c.path)
			q.audited(c.name)
			q.quiet()
		})
	}
}
