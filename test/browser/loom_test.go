package browser

import "testing"

// TestAccessibilityOfLoom goes through the pages of Loom in the demo's van.
func TestAccessibilityOfLoom(t *testing.T) {
	s := demoIn(t, t.TempDir(), "--until", "2026-10-13")
	p := tablet(t, s.url)
	p.bare()
	for _, c := range []struct{ name, path string }{
		{"loom", ""}, {"loom-circuit", "/circuit/C08"}, {"loom-fuses", "/fuses"}, {"loom-route", "/route"}, {"loom-board", "/board"}, {"loom-net", "/net"},
		{"loom-by-fuse", "?by=fuse"}, {"loom-flagged", "?show=flagged"}, {"loom-new", "/circuit"}, {"loom-charging", "/charging"}, {"loom-change", "/charging/change"},
		{"loom-waypoint", "/route/waypoint/B02"}, {"loom-stretch", "/route/stretch/R05"}, {"loom-hole", "/route/hole/H01"}, {"loom-places", "/route/places"},
		{"loom-parts", "/parts"}, {"loom-consumers", "/parts/consumer"}, {"loom-switch", "/parts/switch/new"}, {"loom-settings", "/parts/settings"},
		{"loom-ends", "/ends"}, {"loom-cut", "/cut"}, {"loom-labels", "/labels"}, {"loom-takes", "/takes"}, {"loom-continuity", "/continuity"}, {"loom-power", "/power"},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := *p
			q.T = t
			q.saw.clear()
			q.open("/b/pedlar/loom" + c.path)
			q.audited(c.name)
			q.quiet()
			if n := q.saw.weight(); n > most {
				t.Errorf("%s takes in %d bytes of script, want at most %d", c.path, n, most)
			}
		})
	}
}
