package browser

import "testing"

// TestLayoutIsFoundOnTheOpenPage asks for a layout, sees it come without
// touching anything, and keeps it through the knock-on.
func TestLayoutIsFoundOnTheOpenPage(t *testing.T) {
	s := demoIn(t, t.TempDir(), "--until", "2026-10-13")
	p := tablet(t, s.url)
	p.bare()
	p.open("/b/pedlar/trim/lay/tan%20leather")
	p.says("#trim-plan", "All 50 pieces are laid and can be cut as they lie")
	p.tap("#act-ask summary")
	p.follow(p.labelled("button", "Lay them"))
	p.until("the layout is found on the open page", `document.querySelector("#trim-work")?.innerText.includes("All 50 pieces lie on")`)
	p.says("#trim-work", "checked on the true shapes")
	p.follow(p.labelled("button", "Keep it: see what it does"))
	p.until("the slip names the cut plan", `document.body.innerText.includes("Cut plan of tan leather: 50 pieces")`)
}

// TestAccessibilityOfTrim goes through the pages of Trim once hides are drawn.
func TestAccessibilityOfTrim(t *testing.T) {
	s := demoIn(t, t.TempDir(), "--until", "2026-10-13")
	p := tablet(t, s.url)
	p.bare()
	for _, c := range []struct{ name, path string }{
		{"trim", ""}, {"trim-hides", "/hides"}, {"trim-hide", "/hide/H3?open=mark"}, {"trim-draw", "/hide/H4?open=draw"}, {"trim-lost", "/hide/H3/lost"}, {"trim-new", "/hide"},
		{"trim-pieces", "/pieces"}, {"trim-piece", "/piece/T05"}, {"trim-lay", "/lay/tan%20leather"}, {"trim-paper", "/lay/tan%20leather?as=paper"}, {"trim-roll", "/lay/quilted%20vinyl"},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := *p
			q.T = t
			q.saw.clear()
			q.open("/b/pedlar/trim" + c.path)
			q.audited(c.name)
			q.quiet()
			if n := q.saw.weight(); n > most {
				t.Errorf("%s takes in %d bytes of script, want at most %d", c.path, n, most)
			}
		})
	}
}
