package loom

import (
	"strings"
	"testing"
)

// TestPower_ReadAtTheStep: a step leads to its reading; what was read stands
// there, told to be off where it is.
func TestPower_ReadAtTheStep(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/power"), 200, `href="/b/pedlar/loom/power?circuit=C09#reading"`, "earth last", `class="power-line"`)
	holds(t, s.Get("loom/power?circuit=C09"), 200, `value="C09"`)
	for _, m := range [][2]string{{"C09", "12.3"}, {"C11", "9"}} {
		if got := s.Post("loom/reading", "circuit", m[0], "kind", "volts", "value", m[1], "note", ""); got.See != "/b/pedlar/loom/power" {
			t.Fatalf("%d %.300s", got.Status, got.Body)
		}
	}
	page := s.Get("loom/power").Body
	holds(t, s.Get("loom/power"), 200, "12.3 V (MW)", "9 V (MW)", "as it should", ">off<")
	if strings.Contains(page, "power?circuit=C09#reading") || !strings.Contains(page, "power?circuit=C10#reading") {
		t.Error("a step that was read still asks for it, or one that was not does not")
	}
	if a, z := strings.Index(page, "no live battery near open fuel"), strings.Index(page, "step-1"); a < 0 || z < a {
		t.Error("the cautions do not stand before the first step")
	}
}

// TestCut_OffTheReels: every kind of cable of the list with how many wires and
// the longest of them.
func TestCut_OffTheReels(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/cut"), 200, "Off the reels", "0.5 mm² green/violet", "reel-")
}

// TestEnds_SplicesAndWhatIsEmpty: terminals are told in the words of the one
// table, cavities in which nothing lands are to be plugged, and splices stand
// with their place along the loom.
func TestEnds_SplicesAndWhatIsEmpty(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/ends"), 200, "3, 4, 5, 6", "plug it where the connector is sealed", "stop lamps", "Splices along the loom")
	holds(t, s.Get("loom/ends?list=splices&as=csv"), 200, "C12,R", "C12, C12.1, C12.2")
	holds(t, s.Get("loom/ends?as=csv"), 200, "contact; on a cube relay the make contact")
}
