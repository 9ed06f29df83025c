package browser

import "testing"

// TestAccessibilityOfLoom goes through the pages of Loom in the demo's van.
func TestAccessibilityOfLoom(t *testing.T) {
	s := demoIn(t, t.TempDir(), "--until", "2026-10-13")
	p := tablet(t, s.url)
	p.bare()
	p.walked("/b/pedlar/loom", []stop{
		{"loom", ""}, {"loom-circuit", "/circuit/C08"}, {"loom-fuses", "/fuses"}, {"loom-route", "/route"}, {"loom-board", "/board"}, {"loom-net", "/net"},
		{"loom-by-fuse", "?by=fuse"}, {"loom-flagged", "?show=flagged"}, {"loom-new", "/circuit"}, {"loom-charging", "/charging"}, {"loom-change", "/charging/change"},
		{"loom-waypoint", "/route/waypoint/B02"}, {"loom-stretch", "/route/stretch/R05"}, {"loom-hole", "/route/hole/H01"}, {"loom-places", "/route/places"},
		{"loom-parts", "/parts"}, {"loom-consumers", "/parts/consumer"}, {"loom-switch", "/parts/switch/new"}, {"loom-settings", "/parts/settings"},
		{"loom-ends", "/ends"}, {"loom-cut", "/cut"}, {"loom-labels", "/labels"}, {"loom-takes", "/takes"}, {"loom-continuity", "/continuity"}, {"loom-power", "/power"},
	})
}
