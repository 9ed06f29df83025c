package loom

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/placetest"
	"fettle/unit"
)

// laid posts a form and returns what lies on the slip then.
func laid(t *testing.T, s *placetest.Shop, path string, fields ...string) []build.Change {
	t.Helper()
	if got := s.Post(path, fields...); got.See != "/b/pedlar/slip" {
		t.Fatalf("%s: %d to %q: %.400s", path, got.Status, got.See, got.Body)
	}
	return s.Slip(t)
}

// TestWaypoint_TouchedIn: two measures by touch, the third from the panel, and
// the stretches and circuits that the form asks for.
func TestWaypoint_TouchedIn(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/route"), 200, `data-pick="/b/pedlar/loom/route/new?view=left"`, "data-pick-ground", "vehicle-way", `href="/b/pedlar/loom/route/stretch/R05"`, `href="/b/pedlar/loom/route/waypoint/B02"`, `href="/b/pedlar/loom/route/hole/H01"`)
	holds(t, s.Get("loom/route/new?view=left&panel=P39&x=1800&z=700"), 200, `value="W91"`, `value="1800"`, `value="700"`, "y from the middle of P39", "data-fill", "Stretches to", `value="B46"`)
	slip := laid(t, s, "loom/route/waypoint", "new", "yes", "id", "w91", "name", "aerial", "what", "end", "x", "1800", "y", "-690", "z", "700,5", "begins", "", "reaches", "c36", "join", "B30", "join", "B25")
	if len(slip) != 4 {
		t.Fatalf("%d changes: %+v", len(slip), slip)
	}
	w := slip[0].(*build.SetWaypoint).Waypoint
	if w.ID != "W91" || w.What != "end" || w.At != [3]unit.Length{1800 * unit.Millimetre, -690 * unit.Millimetre, 700500} {
		t.Errorf("waypoint %+v", w)
	}
	if c := slip[1].(*build.SetCircuit).Circuit; c.ID != "C36" || c.Ends[len(c.Ends)-1] != "W91" {
		t.Errorf("circuit %+v", c)
	}
	if r := slip[3].(*build.SetStretch).Stretch; r.ID != "R95" || r.From != "B25" || r.To != "W91" {
		t.Errorf("stretch %+v", r)
	}
	holds(t, s.Get("loom/route/waypoint/W91"), 200, "aerial", "On it: stretch R94, stretch R95, circuit C36")
	holds(t, s.Get("loom/route"), 200, "vehicle-spot vehicle-draft")
}

func TestWaypoint_Refused(t *testing.T) {
	ok := []string{"new", "yes", "id", "W91", "name", "aerial", "what", "", "x", "1", "y", "2", "z", "3", "begins", "", "reaches", ""}
	for _, bad := range []struct{ field, value, says string }{
		{"id", "W01", "another waypoint has it"}, {"x", "far", `value="far"`}, {"what", "hook", "What is there"},
		{"reaches", "C99", "no circuit of the list"}, {"begins", "C08", "take it off there first"}, {"z", "99000", `id="z-error"`},
	} {
		form := slices.Clone(ok)
		form[slices.Index(form, bad.field)+1] = bad.value
		s := loomShop(t)
		holds(t, s.Post("loom/route/waypoint", form...), 422, "to put right", bad.says, `value="aerial"`)
		if n := len(s.Slip(t)); n != 0 {
			t.Errorf("%s: %d changes on the slip", bad.field, n)
		}
	}
	s := loomShop(t)
	holds(t, s.Get("loom/route/waypoint/W99"), 404)
	if got := s.Post("loom/route/waypoint/B02/drop"); got.Status < 400 {
		t.Errorf("a waypoint with stretches comes off: %d", got.Status)
	}
}

func TestStretch_ShownAndSet(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/route/stretch/R05"), 200, "bundle of R05", "least bend", "loom-section-wire", `href="/b/pedlar/loom/circuit/C17"`, "Hole H01")
	holds(t, s.Get("loom/route/stretch/R05?as=csv"), 200, "C17,2.0,G/R,2.8")
	holds(t, s.Get("loom/route/stretch/R92"), 200, "No wire may lie here", "less than 100 mm from the pipe")
	form := []string{"id", "R05", "from", "B01", "to", "B02", "length", "400", "forbidden", "", "sleeve", "braid", "air", ""}
	slip := laid(t, s, "loom/route/stretch", append(form, "moves", "yes")...)
	if x := slip[0].(*build.SetStretch).Stretch; x.Length != 400*unit.Millimetre || x.Sleeve != "braid" || !x.Moves {
		t.Errorf("set %+v", x)
	}
	form[7] = "12"
	holds(t, loomShop(t).Post("loom/route/stretch", form...), 422, "less than the straight line", `value="12"`)
	form[5] = "B01"
	holds(t, loomShop(t).Post("loom/route/stretch", form...), 422, "is where it begins")
	holds(t, s.Get("loom/route/stretch"), 200, `value="R94"`)
}

// TestStretch_Closed: a stretch that is closed to wires sends them another way
// or leaves them without one, which is said.
func TestStretch_Closed(t *testing.T) {
	s := loomShop(t)
	laid(t, s, "loom/route/stretch", "id", "R24", "from", "B10", "to", "B11", "length", "", "forbidden", "the steering turns here", "sleeve", "", "air", "")
	holds(t, s.Get("loom/route"), 200, "the steering turns here", "On your slip, not kept yet", "length of the loom: 22.10 m →", "To put right", "no way leads from", "tretch R24 would join them, but is forbidden")
	if rows := rowsOf(t, s, "loom/route/places?as=csv&list=ways"); rows[23][0] != "R24" || !strings.Contains(rows[23][7], "no wire") || rows[23][5] != "" {
		t.Errorf("the list of stretches: %v", rows[23])
	}
}

// TestHole_SetIntoAStretch parts the stretch in two at the hole.
func TestHole_SetIntoAStretch(t *testing.T) {
	s := loomShop(t)
	before := s.Build(t).Loom
	holds(t, s.Get("loom/route/hole?on=R60"), 200, "How far along R60", "of 710 mm", `value="H16"`)
	form := []string{"new", "yes", "on", "R60", "id", "H16", "panel", "P32", "diameter", "20", "along", "300", "grommet", "wire grommet", "bore", "", "day", ""}
	slip := laid(t, s, "loom/route/hole", form...)
	if len(slip) != 4 {
		t.Fatalf("%d changes", len(slip))
	}
	next, err := build.ApplyAll(s.Build(t), slip)
	if err != nil {
		t.Fatal(err)
	}
	h := next.Loom.Hole("H16")
	if h == nil || h.Drilled || len(next.Loom.Stretches) != len(before.Stretches)+1 {
		t.Fatalf("hole %+v, %d stretches", h, len(next.Loom.Stretches))
	}
	if at := next.Loom.Waypoint(h.At).At; at != [3]unit.Length{920 * unit.Millimetre, -740 * unit.Millimetre, 380 * unit.Millimetre} {
		t.Errorf("it lies at %v", at)
	}
	form[11] = "900"
	holds(t, loomShop(t).Post("loom/route/hole", form...), 422, "no less than the stretch")
}

func TestHole_ShownAndRefused(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/route/hole/H01"), 200, "bundle through H01", "least hole", "fits: 41.0 mm passes", "fuel and brake lines")
	form := []string{"id", "H01", "panel", "P25", "diameter", "45", "at", "W05", "grommet", "", "bore", "", "day", ""}
	holds(t, s.Post("loom/route/hole", form...), 422, "a hole lies on the way, not at an end")
	form[7], form[11] = "B02", "50"
	holds(t, s.Post("loom/route/hole", form...), 422, "is no less than the hole")
	form[11], form[13] = "", "2026-10-12"
	h := laid(t, s, "loom/route/hole", form...)[0].(*build.SetHole).Hole
	if !h.Drilled || h.Day != unit.Day(2026, 10, 12) || h.Grommet != "" {
		t.Errorf("set %+v", h)
	}
	if got := laid(t, loomShop(t), "loom/route/hole/H13/drop"); len(got) != 1 {
		t.Errorf("dropped %v", got)
	}
}

// TestStart_FromTheListOfCircuits begins a route where there is none: the ends
// by their panels, then straight lines.
func TestStart_FromTheListOfCircuits(t *testing.T) {
	b := loomShop(t).Build(t)
	b.Loom = build.Loom{}
	for i := range b.Circuits {
		b.Circuits[i].Ends = nil
	}
	s := sheet{Build: &b, Kept: &b, Base: "/b/pedlar", Crew: true}
	ends := s.unplacedEnds()
	front := slices.IndexFunc(ends, func(u unplaced) bool { return u.Name == "front panel" })
	if len(ends) < 30 || front < 0 || !ends[front].Known || ends[front].Panel.ID != "P21" {
		t.Fatalf("%d ends, front panel %+v", len(ends), ends[max(front, 0)])
	}
	placed, err := build.ApplyAll(b, s.startEnds())
	if err != nil || len(placed.Loom.Waypoints) != placeable(ends) {
		t.Fatalf("%d of %d placed, %v", len(placed.Loom.Waypoints), placeable(ends), err)
	}
	placed.Loom.Waypoints = append(placed.Loom.Waypoints, build.Waypoint{ID: "W98", Name: "horn relay", At: [3]unit.Length{0, -500000, 800000}}, build.Waypoint{ID: "W99", At: [3]unit.Length{500000, 0, 900000}})
	s.Build = &placed
	ways := s.startWays()
	joined, err := build.ApplyAll(placed, ways)
	if err != nil || len(ways) != len(placed.Loom.Waypoints)-1 {
		t.Fatalf("%d stretches over %d waypoints, %v", len(ways), len(placed.Loom.Waypoints), err)
	}
	s.Build = &joined
	if again := s.startWays(); len(again) != 0 {
		t.Errorf("joined already, %d more", len(again))
	}
	horn := slices.IndexFunc(ended(&joined), func(c build.Change) bool { return c.(*build.SetCircuit).Circuit.ID == "C24" })
	if horn < 0 {
		t.Error("the horns have both ends by name and get no way")
	}
}

func TestPlaces_AsFileAndJSON(t *testing.T) {
	s := loomShop(t)
	if a, b := rowsOf(t, s, "loom/route/places?as=csv"), rowsOf(t, s, "loom/route/places?as=csv&list=ways"); len(a) != 90 || len(b) != 93 {
		t.Errorf("%d waypoints, %d stretches", len(a), len(b))
	}
	for _, path := range []string{"places", "waypoint/W05", "stretch/R05", "hole/H01"} {
		if got := s.Get("loom/route/" + path + "?as=json"); got.Status != 200 || !json.Valid([]byte(got.Body)) {
			t.Errorf("%s: %d", path, got.Status)
		}
	}
}
