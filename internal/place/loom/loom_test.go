package loom

import (
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

// loomShop is the demo shop on the morning when the wiring is drawn.
func loomShop(t *testing.T) *placetest.Shop {
	t.Helper()
	return placetest.Open(t, unit.Day(2026, 10, 13), func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
}

func holds(t *testing.T, a placetest.Answer, status int, want ...string) {
	t.Helper()
	if a.Status != status {
		t.Errorf("status %d, want %d: %.300s", a.Status, status, a.Body)
	}
	for _, w := range want {
		if !strings.Contains(a.Body, w) {
			t.Errorf("the page lacks %q", w)
		}
	}
}

func rowsOf(t *testing.T, s *placetest.Shop, path string) [][]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(s.Get(path).Body)).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", path, len(rows), err)
	}
	return rows[1:]
}

// TestCircuits_SectionsAndFlags: the forty circuits, the pair that is lifted, and
// exactly two fuses that carry too much.
func TestCircuits_SectionsAndFlags(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom"), 200, "6.5 A for long × 1.25 = 8.1 A", "10.0 A for long × 1.25 = 12.5 A", "needs 23", `name="load-C08"`, "data-rows", "licensed electrician")
	rows := rowsOf(t, s, "loom?as=csv")
	if len(rows) != 40 {
		t.Fatalf("%d circuits", len(rows))
	}
	for id, want := range map[string][3]string{"C01": {"35", "0.15", "load"}, "C06": {"1.0", "0.25", "voltage drop"}, "C08": {"1.0", "0.19", "pair"}, "C17": {"2.0", "0.21", "voltage drop"}, "C25": {"3.0", "0.10", "fuse"}} {
		for _, r := range rows {
			if r[0] == id && [3]string{r[9], r[11], r[10]} != want {
				t.Errorf("%s: %v, want %v", id, r[9:], want)
			}
		}
	}
	flagged := 0
	for _, r := range rowsOf(t, s, "loom/fuses?as=csv") {
		if strings.Contains(r[5], "asked of") {
			flagged++
			if r[0] != "F11" && r[0] != "F19" {
				t.Errorf("%s is flagged: %s", r[0], r[5])
			}
		}
	}
	if flagged != 2 {
		t.Errorf("%d fuses are flagged, want 2", flagged)
	}
	holds(t, s.Get("loom/fuses"), 200, "22 of 22 ways taken, 23", "a way too few", "seconds only")
}

// TestCircuits_TypedDownTheList: a line that is typed anew goes on the slip, and
// what would follow is shown before.
func TestCircuits_TypedDownTheList(t *testing.T) {
	s := loomShop(t)
	form := []string{"shown-C15", "x", "length-C15", "9,5", "load-C15", "3.5", "duty-C15", "int", "colour-C15", "G/P", "fuse-C15", "F11 7.5"}
	holds(t, s.Post("loom/try", form...), 200, `id="section-C15"`, `hx-swap-oob="true"`, "2.0", "not on the slip yet")
	if n := len(s.Slip(t)); n != 0 {
		t.Fatalf("a try lays %d changes on the slip", n)
	}
	if got := s.Post("loom/circuits", form...); got.See != "/b/pedlar/loom" {
		t.Fatalf("%d to %q: %.300s", got.Status, got.See, got.Body)
	}
	slip := s.Slip(t)
	if c, ok := slip[0].(*build.SetCircuit); len(slip) != 1 || !ok || c.Circuit.Length != 9500*unit.Millimetre || c.Circuit.Name != "stop lamps" {
		t.Errorf("on the slip: %+v", slip)
	}
	holds(t, s.Get("loom"), 200, `class="loom-changed"`, `value="9.5"`)
	if got := s.Post("loom/circuits", form...); got.See != "/b/pedlar/loom" || len(s.Slip(t)) != 1 {
		t.Errorf("typed again, the slip has %d changes", len(s.Slip(t)))
	}
}

func TestCircuits_FuseAndItsRating(t *testing.T) {
	s := loomShop(t)
	line := func(fuse string) []string {
		return []string{"length-C34", "0.9", "load-C34", "10", "duty-C34", "cont", "colour-C34", "P/R", "fuse-C34", fuse}
	}
	if got := s.Post("loom/circuits", line("F19 15")...); got.See == "" {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	set, ok := s.Slip(t)[0].(*build.SetFuse)
	if !ok || set.Fuse.Amps != 15 || set.Fuse.Box == "" {
		t.Errorf("the fuse: %+v", s.Slip(t)[0])
	}
	for _, bad := range []string{"", "F99", "F19 0"} {
		holds(t, loomShop(t).Post("loom/circuits", line(bad)...), 422, "to put right", `id="fuse-C34-error"`)
	}
	holds(t, loomShop(t).Post("loom/circuits", "length-C34", "x", "load-C34", "10", "duty-C34", "cont", "colour-C34", "", "fuse-C34", "F19"), 422, `value="x"`)
	if got := loomShop(t).Post("loom/fuses", "fuse", "F11", "amps", "10"); got.See != "/b/pedlar/slip" {
		t.Errorf("rating: %d %.200s", got.Status, got.Body)
	}
	holds(t, loomShop(t).Post("loom/fuses", "fuse", "F99", "amps", "10"), 422, "is not there")
}

func TestOne_EnteredChangedAndDropped(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/circuit/C08"), 200, "decided by pair", "dip beam L", "lost one way")
	holds(t, s.Get("loom/circuit/C99"), 404)
	holds(t, s.Get("loom/circuit"), 200, `value="C41"`)
	form := []string{"id", "c41", "name", "spot lamp", "from", "light switch", "to", "front panel", "length", "2.4", "load", "4", "limit", "3", "duty", "cont", "fuse", "F23 7.5", "colour", "U/Y", "pair", "", "section", "", "label", "", "unfused", ""}
	if got := s.Post("loom/circuit", form...); got.See != "/b/pedlar/slip" {
		t.Fatalf("%d %.400s", got.Status, got.Body)
	}
	if c := s.Slip(t)[0].(*build.SetCircuit).Circuit; c.ID != "C41" || c.FuseA != 7.5 || c.DropLimit != 3 {
		t.Errorf("entered %+v", c)
	}
	holds(t, s.Get("loom/circuit/C41"), 200, "spot lamp")
	form[3] = ""
	holds(t, loomShop(t).Post("loom/circuit", form...), 422, "Name is empty")
	if got := s.Post("loom/circuit/C41/drop"); got.See != "/b/pedlar/slip" || len(s.Slip(t)) != 2 {
		t.Errorf("drop: %d %.200s", got.Status, got.Body)
	}
}

func TestRoute_DrawnDrilledAndMeasured(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/route"), 200, "vehicle-ink-loom-3", "vehicle-ink-loom-no", "H01", "proved best", "Holes, to be drilled before paint", "no wire may lie here")
	holds(t, s.Get("loom/route?view=top"), 200, "vehicle-ink-loom-2")
	if got := len(rowsOf(t, s, "loom/route?as=csv")); got != len(s.Build(t).Loom.Holes) {
		t.Errorf("%d holes in the file", got)
	}
	rowsOf(t, s, "loom/route?as=csv&list=bundles")
	rowsOf(t, s, "loom/route?as=csv&list=lengths")
	if got := s.Post("loom/route/drilled", "hole", "H01"); got.See != "/b/pedlar/loom/route#holes" {
		t.Fatalf("%d to %q: %.300s", got.Status, got.See, got.Body)
	}
	if b := s.Build(t); !b.Loom.Hole("H01").Drilled {
		t.Error("it is not drilled")
	}
	if got := s.Post("loom/route/drilled", "hole", "H01"); got.Status != 422 {
		t.Errorf("drilled twice: %d", got.Status)
	}
	if got := s.Post("loom/route/lengths", "circuit", "C15"); got.See != "/b/pedlar/slip" {
		t.Fatalf("lengths: %d %.300s", got.Status, got.Body)
	}
	c := s.Slip(t)[0].(*build.SetCircuit).Circuit
	if len(s.Slip(t)) != 1 || c.ID != "C15" || c.Length <= 5400*unit.Millimetre || c.Length%(10*unit.Millimetre) != 0 {
		t.Errorf("taken over: %+v", c)
	}
}

// TestLists_AsFileAndJSON: every list is a page, a file and JSON.
func TestLists_AsFileAndJSON(t *testing.T) {
	s := loomShop(t)
	for path, want := range map[string]string{"cut": "Cut list", "takes": "Part in Stores", "ends": "DIN 72552", "labels": "30 to 50 mm", "continuity": "all others", "power": "21 W lamp", "fuses": "Fuses", "board": "from the mating side", "route": "Lengths: by the list"} {
		holds(t, s.Get("loom/"+path), 200, want)
		rowsOf(t, s, "loom/"+path+"?as=csv")
		if got := s.Get("loom/" + path + "?as=json"); got.Status != 200 || !json.Valid([]byte(got.Body)) {
			t.Errorf("%s as JSON: %d", path, got.Status)
		}
	}
	holds(t, s.Get("loom/power"), 200, "Fire:", "Battery:", "advises and certifies nothing", "licensed electrician")
	holds(t, s.Get("loom/net"), 200, "dip relay terminal 87", "earth front L", "net-fuse")
}

// TestLabels_SayWhatTheCutListSays: two for each wire that is cut, with its text.
func TestLabels_SayWhatTheCutListSays(t *testing.T) {
	s := loomShop(t)
	var cuts []struct{ ID, Label string }
	if err := json.Unmarshal([]byte(s.Get("loom/cut?as=json").Body), &cuts); err != nil || len(cuts) == 0 {
		t.Fatalf("%d cuts, %v", len(cuts), err)
	}
	count := map[string]int{}
	for _, r := range rowsOf(t, s, "loom/labels?as=csv") {
		count[r[0]+"/"+r[3]]++
	}
	page := s.Get("loom/labels").Body
	for _, c := range cuts {
		if count[c.ID+"/"+c.Label] != 2 || !strings.Contains(page, c.Label) {
			t.Errorf("%s has %d labels that say %q", c.ID, count[c.ID+"/"+c.Label], c.Label)
		}
	}
	if got := s.Post("loom/labels"); got.Status >= 400 {
		t.Fatalf("printed: %d %.300s", got.Status, got.Body)
	}
	if body := s.Get("loom/labels").Body; strings.Count(body, "loom-label-done") != 2*len(cuts) || strings.Contains(body, "throw the old ones away") {
		t.Error("they do not count as printed")
	}
}

func TestReading_KeptAndRefused(t *testing.T) {
	s := loomShop(t)
	before := len(s.Build(t).Loom.Metered)
	if got := s.Post("loom/reading", "circuit", "c08", "kind", "volts", "value", "11,2", "note", ""); got.See != "/b/pedlar/loom/power" {
		t.Fatalf("%d to %q %.300s", got.Status, got.See, got.Body)
	}
	if m := s.Build(t).Loom.Metered; len(m) != before+1 || m[before].Value != 11.2 || m[before].Circuit != "C08" {
		t.Errorf("kept %+v", m)
	}
	holds(t, s.Get("loom/power"), 200, "11.2 V")
	holds(t, s.Post("loom/reading", "circuit", "C99", "kind", "continuity", "value", "1", "note", ""), 422, "Continuity")
	holds(t, s.Post("loom/reading", "circuit", "C08", "kind", "watts", "value", "1", "note", ""), 422)
}

// TestBoard_AtTrueSize: the files, and the board as large as it is said to be.
func TestBoard_AtTrueSize(t *testing.T) {
	s := loomShop(t)
	for form, begins := range map[string]string{"pdf&paper=a0": "%PDF", "dxf": "999", "svg": "<"} {
		if got := s.Get("loom/board/drawing?form=" + form); got.Status != 200 || !strings.HasPrefix(got.Body, begins) {
			t.Errorf("%s: %d %.40q", form, got.Status, got.Body)
		}
	}
	if got := s.Post("loom/board", "width", "12000", "height", ""); got.See != "/b/pedlar/loom/board" {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	if set := s.Slip(t)[0].(*build.SetLoom).Settings; set.BoardWidth != 12000*unit.Millimetre || set.BoardHeight != 0 || set.Rules != "by list" {
		t.Errorf("settings %+v", set)
	}
	holds(t, s.Post("loom/board", "width", "3", "height", ""), 422)
}

func TestTakes_WantsWhatNoPartCovers(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/takes"), 200, "Q29", "0.5 mm²")
	if got := s.Post("loom/takes/cable"); got.Status != 409 {
		t.Errorf("cable is on the list already: %d", got.Status)
	}
}

func TestGuest_ReadsAndDoesNotWrite(t *testing.T) {
	s := loomShop(t)
	s.Person.Role = account.Guest
	for _, path := range []string{"loom", "loom/fuses", "loom/circuit/C08", "loom/route", "loom/board", "loom/power", "loom/labels", "loom/takes"} {
		got := s.Get(path)
		holds(t, got, 200)
		if strings.Contains(got.Body, `action="/b/pedlar/loom`) {
			t.Errorf("a guest is offered to write on %s", path)
		}
	}
	for _, act := range []string{"circuits", "try", "circuit", "circuit/C08/drop", "fuses", "route/drilled", "route/lengths", "board", "labels", "reading", "takes/cable"} {
		holds(t, s.Post("loom/"+act), 403)
	}
}
