package loom

import "testing"

// TestCautions_OnEverySheet: fire, battery, the road and the electrician stand
// on screen and on paper wherever somebody acts.
func TestCautions_OnEverySheet(t *testing.T) {
	s := loomShop(t)
	for _, path := range []string{"", "/fuses", "/charging", "/route", "/net", "/takes", "/parts/wire", "/board", "/cut", "/ends", "/labels", "/continuity", "/power", "/circuit/C08"} {
		for _, as := range []string{"", "?as=paper"} {
			holds(t, s.Get("loom"+path+as), 200, "attery", "licensed electrician", "certifies nothing")
		}
	}
}
