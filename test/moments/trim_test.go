package moments

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/place/knockon"
	"fettle/internal/place/trim"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/plan"
	stage "fettle/stage/trim"
	"fettle/unit"
)

// trimmer serves the places of trim and of the slip to the trimmer, when the
// hides are drawn and a cut plan is kept.
func trimmer(t *testing.T) *placetest.Shop {
	t.Helper()
	s := placetest.Open(t, unit.Day(2026, 10, 13), func(d desk.Desk) []web.Place { return []web.Place{trim.Place(d), knockon.Place(d)} })
	s.Person.Code = "TR"
	return s
}

// asked is a layout as its page has it in JSON.
type asked struct {
	State   string
	Laid    stage.Laid
	Verdict stage.Verdict
}

// laid asks for a layout of the tan pieces and waits for it, as a person does;
// it returns the path of its page too.
func laid(t *testing.T, s *placetest.Shop, form ...string) (path string, a asked) {
	t.Helper()
	got := s.Post("trim/lay/tan%20leather/ask", form...)
	path, found := strings.CutPrefix(got.See, "/b/pedlar/")
	if !found {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	for range 1200 {
		a = decode[asked](t, []byte(s.Get(path+"?as=json").Body))
		if a.State != "waiting" && a.State != "working" {
			return path, a
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatal("the layout does not end")
	return path, a
}

// where is the hide that a piece lies on.
func where(list []build.Placed, piece build.PieceID) build.HideID {
	i := slices.IndexFunc(list, func(p build.Placed) bool { return p.Piece == piece })
	if i < 0 {
		return ""
	}
	return list[i].Hide
}

// TestBrandInTheThirdHide: a brand of 210 × 160 mm in the best zone of hide 3,
// under the fascia pad.
func TestBrandInTheThirdHide(t *testing.T) {
	s := trimmer(t)
	before := s.Build(t)
	equal(t, "the fascia pad lies on", where(before.LayoutOf("tan leather").Placed, "T21"), "H3")
	if v := stage.VerdictOf(&before, "tan leather"); !v.Whole() || v.Gap < stage.Clearance-0.001 {
		t.Fatalf("the kept plan: %+v", v)
	}

	got := s.Post("trim/hide/H3/mark", "kind", "brand", "takes", "", "note", "", "x", "800", "y", "1050", "width", "210", "height", "160", "corners", "")
	equal(t, "the mark goes on", got.See, "/b/pedlar/slip")
	slip := s.Get("slip").Body
	for _, say := range []string{"brand of 210 × 160 mm, nothing may lie on it", "cannot be cut where they lie: T21"} {
		if !strings.Contains(slip, say) {
			t.Errorf("the knock-on does not say %q", say)
		}
	}
	equal(t, "kept", s.Post("slip/keep").Status, 303)
	marked := s.Build(t)
	wrong := stage.VerdictOf(&marked, "tan leather").Faults
	if len(wrong) != 1 || wrong[0].Piece != "T21" || wrong[0].Hide != "H3" {
		t.Fatalf("what cannot be cut now: %+v", wrong)
	}

	// Three hides are enough: laid anew, and the fascia pad is on hide 1.
	path, three := laid(t, s, "steps", "400")
	equal(t, "pieces without a place on three hides", three.Laid.Missing, 0)
	if !three.Laid.Verified || !three.Verdict.Whole() || three.Verdict.Gap < stage.Clearance-0.001 {
		t.Errorf("three hides: %+v", three.Verdict)
	}
	equal(t, "the fascia pad moves to", where(three.Laid.Placed, "T21"), "H1")
	equal(t, "the layout goes on", s.Post(path+"/keep").See, "/b/pedlar/slip")
	if slip := s.Get("slip").Body; !strings.Contains(slip, "Cut plan of tan leather: 50 pieces on 3 hides") {
		t.Error("the knock-on does not name the cut plan")
	}
	equal(t, "kept", s.Post("slip/keep").Status, 303)
	relaid := s.Build(t)
	if v := stage.VerdictOf(&relaid, "tan leather"); !v.Whole() {
		t.Errorf("the plan kept now: %+v", v)
	}

	// Two are not: 97 % by the rule, and the search finds no place for all.
	loss := decode[struct {
		Moves  []stage.Left `json:"moves"`
		Used   float64      `json:"used"`
		Net    float64      `json:"net_m2"`
		Usable float64      `json:"usable_m2"`
		Says   string       `json:"says"`
		Room   plan.Room    `json:"room"`
	}](t, []byte(s.Get("trim/hide/H3/lost?as=json").Body))
	equal(t, "net m²", math.Round(100*loss.Net)/100, 6.41)
	equal(t, "m² that two hides give", loss.Usable, 6.58)
	if loss.Used < 0.97 || loss.Used >= 0.98 || !strings.Contains(loss.Says, "97 % used") || len(loss.Moves) < 10 {
		t.Errorf("two hides: used %.3f, %q, %d pieces move", loss.Used, loss.Says, len(loss.Moves))
	}
	path, two := laid(t, s, "steps", "600", "without", "H3")
	if two.Laid.Missing < 5 || len(two.Verdict.Faults) > 0 || !two.Laid.Verified {
		t.Errorf("on two hides %d pieces have no place, want several; verdict %+v", two.Laid.Missing, two.Verdict.Faults)
	}
	if page := s.Get(path).Body; !strings.Contains(page, "Not enough: ") || !strings.Contains(page, "found no place on 2 hides in ") {
		t.Error("the page does not say that two hides are not enough")
	}

	// Another hide of the lot is ordered by the day that the float allows.
	near(t, "sewing can begin as late as", loss.Room.Latest, unit.Day(2027, 1, 4))
	equal(t, "working days from the tannery", workdays(loss.Room.Late, loss.Room.Latest), loss.Room.Lead)
	page := s.Get("trim/hide/H3/lost").Body
	for _, say := range []string{"If hide H3 is lost", "before the date moves", loss.Room.Late.Short(), "97"} {
		if !strings.Contains(page, say) {
			t.Errorf("the page does not say %q", say)
		}
	}
	got = s.Post("trim/hide/H3/order", "count", "1", "price", "285", "lead", "10", "task", "T26", "supplier", "the tannery")
	equal(t, "the order goes on", got.See, "/b/pedlar/slip")
	if c := s.Slip(t)[0].(*build.AddPart); !strings.Contains(c.Part.Name, "lot BT-2207") || c.Part.Task != "T26" {
		t.Errorf("ordered %+v", c.Part)
	}
}
