package trim

import (
	"encoding/csv"
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/shapein"
	"fettle/internal/web"
	"fettle/unit"
)

// trimShop is the shop when the hides are drawn and a cut plan is kept.
func trimShop(t *testing.T) *placetest.Shop {
	return placetest.Open(t, unit.Day(2026, 10, 13), func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
}

func holds(t *testing.T, a placetest.Answer, status int, want ...string) {
	t.Helper()
	if a.Status != status {
		t.Errorf("status %d, want %d: %.200s", a.Status, status, a.Body)
	}
	for _, w := range want {
		if !strings.Contains(a.Body, w) {
			t.Errorf("the page lacks %q", w)
		}
	}
}

func TestFront_WhatTheMaterialsTake(t *testing.T) {
	s := trimShop(t)
	holds(t, s.Get("trim"), 200, "6.41", "A 2.75, B 3.09, C 0.57", "3 hides, lot BT-2207", "2.90 m, buy 4", "1.45 m, buy 2", "2 m of quilted vinyl are needed", "no margin: 1 more of the same lot")
	rows, err := csv.NewReader(strings.NewReader(s.Get("trim?as=csv").Body)).ReadAll()
	if err != nil || len(rows) != 6 || rows[1][3] != "6.41" || rows[1][2] != "0" {
		t.Errorf("file %v, %v", rows, err)
	}
	var doc struct{ Needs []struct{ Material string } }
	if err := json.Unmarshal([]byte(s.Get("trim?as=json").Body), &doc); err != nil || len(doc.Needs) != 5 {
		t.Errorf("document %+v, %v", doc, err)
	}
	for _, path := range []string{"trim/hides", "trim/pieces", "trim/hide/H3", "trim/lay/tan%20leather"} {
		if got := s.Get(path + "?as=csv"); got.Status != 200 || strings.Count(got.Body, "\n") < 3 {
			t.Errorf("%s as a file: %d", path, got.Status)
		}
		if got := s.Get(path + "?as=json"); got.Status != 200 || !json.Valid([]byte(got.Body)) {
			t.Errorf("%s as JSON: %d", path, got.Status)
		}
	}
}

func TestHides_DrawnWithWhatLiesOnThem(t *testing.T) {
	s := trimShop(t)
	holds(t, s.Get("trim/hides"), 200, "H1 tan leather", "16 pieces", "Hide H1, laid", `figure-number">44<`, "drawn to within 5 mm", "not drawn yet", "trim-mark-0", "lay-zone-1")
	holds(t, s.Get("trim/hide/H3"), 200, "T21", "tag hole", "What if it is lost?", "Note a mark")
	holds(t, s.Get("trim/hide/H9"), 404)
	s.Person.Role = account.Guest
	if strings.Contains(s.Get("trim/hide/H3").Body, "Note a mark") {
		t.Error("a guest is offered to note marks")
	}
	for _, act := range []string{"mark", "draw", "refuse", "order", "clear"} {
		holds(t, s.Post("trim/hide/H3/"+act), 403)
	}
}

// TestHide_ActsGoOnTheSlip: each form of a hide and the change it makes.
func TestHide_ActsGoOnTheSlip(t *testing.T) {
	mark := []string{"kind", "scar", "takes", "B", "note", "", "x", "1000", "y", "900,5", "width", "40", "height", "20", "corners", ""}
	draw := []string{"outline", "0 0\n2000 0\n2000 1800\n0 1800\n\n100 100, 200 100, 200 200", "error", "4", "unit", "", "zones", "B belly: 0 0, 2000 0, 2000 150, 0 150", "headings", "1000 900 0\n1000 100 −5"}
	for _, tt := range []struct {
		act  string
		form []string
		want string
	}{
		{"mark", mark, "Hide H3: scar of 40 × 20 mm, pieces of grade B or lower may lie on it"},
		{"mark", with(mark, "corners", "1000 900\n1100 900\n1100 950"), "Hide H3: scar of 100 × 50 mm, pieces of grade B or lower may lie on it"},
		{"clear", []string{"clear", "K2"}, "Hide H3: mark K2 is none"},
		{"draw", draw, "Hide H3 drawn: 3.60 m², 1 zones, to within 4 mm"},
		{"refuse", []string{"why", "brand"}, "Hide H3 refused: brand"},
		{"order", []string{"count", "2", "price", "285.00", "lead", "12", "task", "T26", "supplier", ""}, "Q61 wanted: tan leather hide, lot BT-2207, as hide H3"},
	} {
		s := trimShop(t)
		got := s.Post("trim/hide/H3/"+tt.act, tt.form...)
		if got.Status != http.StatusSeeOther || got.See != "/b/pedlar/slip" {
			t.Errorf("%s: status %d to %q %.300s", tt.act, got.Status, got.See, got.Body)
			continue
		}
		b := s.Build(t)
		if says := s.Slip(t)[0].Say(&b); says != tt.want {
			t.Errorf("%s: %q, want %q", tt.act, says, tt.want)
		}
	}
}

// with returns a form with one field changed.
func with(form []string, name, value string) []string {
	out := append([]string(nil), form...)
	for i := 0; i+1 < len(out); i += 2 {
		if out[i] == name {
			out[i+1] = value
		}
	}
	return out
}

func TestHide_RefusesBesideTheField(t *testing.T) {
	s := trimShop(t)
	mark := []string{"kind", "scar", "takes", "B", "note", "", "x", "1000", "y", "900", "width", "40", "height", "20", "corners", ""}
	draw := []string{"outline", "0 0, 100 0, 100 100", "error", "4", "unit", "", "zones", "", "headings", ""}
	for _, tt := range []struct {
		act  string
		form []string
		want string
	}{
		{"mark", with(mark, "x", "left"), "is not a number"}, {"mark", with(mark, "kind", "dent"), "must be one of"},
		{"mark", with(mark, "corners", "0 0\n1 1\n1 0\n0 1"), "edge"}, {"mark", with(mark, "corners", "0 0 5"), "an odd number"},
		{"draw", with(draw, "outline", ""), "is empty"}, {"draw", with(draw, "outline", "0 0, 1 1, 1 0, 0 1"), "edge"},
		{"draw", with(draw, "zones", "belly: 0 0"), "does not begin with a grade"}, {"draw", with(draw, "headings", "1 2"), "is not x, y and an angle"},
		{"refuse", []string{"why", ""}, "is empty"}, {"order", []string{"count", "0", "price", "1", "lead", "1", "task", "T26"}, "must be from 1"}, {"clear", []string{"clear", "K9"}, "there is no mark"},
	} {
		got := s.Post("trim/hide/H3/"+tt.act, tt.form...)
		holds(t, got, 422, tt.want)
		if len(s.Slip(t)) > 0 {
			t.Fatalf("%s: something lies on the slip", tt.act)
		}
	}
}

const squareFile = "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n8\n0\n90\n4\n70\n1\n10\n500\n20\n500\n10\n700\n20\n500\n10\n700\n20\n600\n10\n500\n20\n600\n0\nENDSEC\n0\nEOF\n"

// TestFromFile_TheLargestLineAndItsHoles: of a drawing only what belongs to one
// shape is taken, in mm.
func TestFromFile_TheLargestLineAndItsHoles(t *testing.T) {
	s, err := shapein.FromFile("a.DXF", strings.NewReader(squareFile), 0)
	if err != nil || s.Area() != 20_000 || len(s.Holes) != 0 {
		t.Errorf("DXF: %+v of %d mm², %v", s, s.Area(), err)
	}
	svg := `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><path d="M10 10H20V20H10Z"/><path d="M0 0H80V50H0Z"/><path d="M90 90H95V95H90Z"/></svg>`
	if s, err = shapein.FromFile("a.svg", strings.NewReader(svg), 0); err != nil || s.Area() != 3900 || len(s.Holes) != 1 {
		t.Errorf("SVG: %+v of %d mm², %v", s, s.Area(), err)
	}
	for name, text := range map[string]string{"a.pdf": squareFile, "a.dxf": "x", "b.svg": `<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9"><path d="M0 0H8"/></svg>`} {
		if _, err := shapein.FromFile(name, strings.NewReader(text), 0); err == nil {
			t.Errorf("%s is read", name)
		}
	}
}

func TestPiece_EnteredAndRefused(t *testing.T) {
	s := trimShop(t)
	holds(t, s.Get("trim/piece"), 200, `value="T36"`, "May stray by")
	holds(t, s.Get("trim/piece/T05"), 200, "driver back wings", "560", "handed")
	holds(t, s.Get("trim/piece/T99"), 404)
	form := []string{"id", "t36", "name", "tool roll", "material", "tan leather", "quantity", "2", "grade", "C", "handed", "yes", "pair", "", "group", "", "face", "", "width", "500", "height", "300",
		"shape", "", "unit", "", "axis", "90", "tolerance", "10"}
	if got := s.Post("trim/piece", form...); got.See != "/b/pedlar/slip" {
		t.Fatalf("%d %.400s", got.Status, got.Body)
	}
	p := s.Slip(t)[0].(*build.SetPiece).Piece
	if p.ID != "T36" || !p.Handed || p.Width != 500*unit.Millimetre || p.Axis != (build.Axis{Angle: 90, Tolerance: 10}) {
		t.Errorf("entered %+v", p)
	}
	s = trimShop(t)
	if got := s.Post("trim/piece", with(form, "shape", "100 50\n300 50\n200 150")...); got.See != "/b/pedlar/slip" {
		t.Fatalf("%d %.400s", got.Status, got.Body)
	}
	if p := s.Slip(t)[0].(*build.SetPiece).Piece; p.Width != 200*unit.Millimetre || p.Shape.Outer[0] != (build.Spot{}) {
		t.Errorf("a true shape gives %s and %v", p.Width, p.Shape)
	}
	for field, value := range map[string]string{"name": "", "grade": "D", "width": "0", "pair": "T99", "tolerance": "0"} {
		holds(t, trimShop(t).Post("trim/piece", with(form, field, value)...), 422)
	}
}

func TestTakeIn_AHide(t *testing.T) {
	s := trimShop(t)
	holds(t, s.Get("trim/hide"), 200, `value="H6"`, "BT-2207")
	got := s.Post("trim/hide", "id", "h6", "material", "tan leather", "lot", "BT-2311", "area", "4.55", "usable", "70", "price", "285.00")
	if got.See != "/b/pedlar/trim/hide/H6" {
		t.Fatalf("%d to %q %.300s", got.Status, got.See, got.Body)
	}
	b := s.Build(t)
	if h := b.Hide("H6"); h == nil || h.Area != 4_550_000 || h.Lot != "BT-2311" {
		t.Errorf("taken in %+v", h)
	}
	holds(t, s.Post("trim/hide", "id", "H6", "material", "tan leather", "lot", "", "area", "4.55", "usable", "70", "price", "0"), 422, "taken")
	holds(t, s.Get("trim/hide/H6"), 200, "not drawn yet", "Nothing can be laid on it before it is drawn")
}

// TestLay_OnScreenPaperAndFile: the cut plan of hides and of a roll.
func TestLay_OnScreenPaperAndFile(t *testing.T) {
	s := trimShop(t)
	holds(t, s.Get("trim/lay/tan%20leather"), 200, "All 50 pieces are laid and can be cut as they lie", "by the exact checker", "T21", "Fix these where they lie")
	holds(t, s.Get("trim/lay/tan%20leather?as=paper"), 200, "In cutting order", "T05 L", "Nothing is turned over", "Check the scale", "tag hole")
	holds(t, s.Get("trim/lay/wrack%20carpet"), 200, "1.45 = 1.45 m", "Keep the rows as the cut plan", "Roll, from its squared end")
	holds(t, s.Get("trim/lay/nothing"), 404)
	for path, begins := range map[string]string{"patterns": "%PDF", "patterns?paper=one": "%PDF", "plan?hide=H3": "999", "plan?hide=H3&form=pdf": "%PDF", "plan?hide=H3&form=dxf12": "999"} {
		if got := s.Get("trim/lay/tan%20leather/" + path); got.Status != 200 || !strings.HasPrefix(got.Body, begins) {
			t.Errorf("%s: %d %.40q", path, got.Status, got.Body)
		}
	}
	holds(t, s.Get("trim/lay/tan%20leather/plan?hide=H9"), 404)
	holds(t, s.Get("trim/lay/tan%20leather/patterns?paper=papyrus"), 422)
	if got := s.Post("trim/lay/wrack%20carpet/rows"); got.See != "/b/pedlar/slip" {
		t.Fatalf("rows: %d %.300s", got.Status, got.Body)
	}
	if l := s.Slip(t)[0].(*build.KeepLayout).Layout; l.Roll != "R2" || len(l.Placed) != 1 {
		t.Errorf("kept %+v", l)
	}
	if got := trimShop(t).Post("trim/lay/wrack%20carpet/buy"); got.Status != 422 {
		t.Errorf("carpet is bought twice: %d", got.Status)
	}
	vinyl := trimShop(t)
	if got := vinyl.Post("trim/lay/quilted%20vinyl/buy"); got.See != "/b/pedlar/slip" || len(vinyl.Slip(t)) != 2 {
		t.Errorf("vinyl: %d %.300s", got.Status, got.Body)
	}
	if body := vinyl.Get("trim").Body; strings.Contains(body, "are needed and none is on the list") {
		t.Error("vinyl is still missing")
	}
	if got := s.Post("trim/lay/tan%20leather/lock", "hide", "H1"); got.See != "/b/pedlar/trim/lay/tan%20leather" {
		t.Fatalf("lock: %d to %q", got.Status, got.See)
	}
	if c := s.Slip(t)[1].(*build.LockPieces); len(c.Copies) != 16 || c.Free {
		t.Errorf("locked %+v", c)
	}
	holds(t, s.Get("trim/lay/tan%20leather"), 200, "Let them move again")
}

func FuzzReadShape(f *testing.F) {
	for _, seed := range []string{"0 0\n1 0\n1 1", "0 0, 9 0, 9 9\n1 1, 2 1, 2 2", "1;2;3;4;5;6", "a", "0 0\n\n1 1", "1e9 0\n"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := shapein.Read(text, 1)
		if err != nil {
			return
		}
		again, err := shapein.Read(shapein.Corners(s), 1)
		if s.Polygon().Check() == nil && (err != nil || again.Area() != s.Area()) {
			t.Errorf("%q reads as %v, written back as %v, %v", text, s, again, err)
		}
	})
}
