package trim

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

// TestLots_SeenOfOneUnlessTheLeadSaysOtherwise: the third hide is of another
// lot, and two of the first are too few.
func TestLots_SeenOfOneUnlessTheLeadSaysOtherwise(t *testing.T) {
	file, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	file.Build.Hide("H3").Lot = "BT-2311"
	s := placetest.Of(t, file, unit.Day(2026, 10, 13), func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
	at := "trim/lay/tan%20leather"
	holds(t, s.Get(at), 200, "cannot be cut where they lie", "two lots never match", "Let the lots of this plan differ", "Seen together, and of several dye lots")

	path, out := waited(t, s, "steps", "300")
	if out.State != "done" || out.Laid.Short() != "BT-2207" || len(out.Verdict.Faults) > 0 || strings.Join(out.Laid.Lots, " ") != "BT-2207" {
		t.Fatalf("%s, short of %q, lots %v, faults %+v", out.State, out.Laid.Short(), out.Laid.Lots, out.Verdict.Faults)
	}
	holds(t, s.Get(path), 200, "No one dye lot took all that is seen: on lot BT-2207", "Order another hide of lot BT-2207", "trim/hide/H1?open=order")

	path, out = waited(t, s, "steps", "400", "mixed", "yes")
	if out.Laid.Missing > 0 || !out.Verdict.Whole() || len(out.Laid.Lots) != 2 {
		t.Fatalf("where lots may differ: %d missing, lots %v, %+v", out.Laid.Missing, out.Laid.Lots, out.Verdict.Faults)
	}
	holds(t, s.Get(path), 200, "Seen together, and of several dye lots", "lot BT-2311: ")
	if got := s.Post(path + "/keep"); got.See != "/b/pedlar/slip" || !s.Slip(t)[0].(*build.KeepLayout).Layout.Mixed {
		t.Fatalf("kept: %d %.200s", got.Status, got.Body)
	}
	holds(t, s.Get(at), 200, "Seen together, and of several dye lots", "Keep what is seen to one lot", "All 50 pieces are laid")
	holds(t, s.Get(at+"?as=paper"), 200, "Seen together, and of several dye lots")
	holds(t, s.Get("trim"), 200, "are cut from 2 dye lots", "old a cutting of each lot")

	// Taken back, the lesser part of each face cannot be cut where it lies.
	if got := s.Post(at + "/lots"); got.See != "/b/pedlar/slip" {
		t.Fatalf("%d %.200s", got.Status, got.Body)
	}
	holds(t, s.Get(at), 200, "cannot be cut where they lie", "two lots never match")
}
