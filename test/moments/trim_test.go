package moments

import (
	"math"
	"slices"
	"strings"
	"testing"

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

// laid lays the tan pieces on the hides as the job does, and has the layout
// judged on the facts.
func laid(t *testing.T, b build.Build, steps int, without ...build.HideID) (stage.Laid, stage.Verdict) {
	t.Helper()
	set, err := stage.SetOf(&b, stage.Asked{Material: "tan leather", Without: without})
	if err != nil {
		t.Fatal(err)
	}
	order, err := set.Order(1, steps)
	if err != nil {
		t.Fatal(err)
	}
	out, err := stage.Lay(t.Context(), order, nil, func([]byte) {})
	if err != nil {
		t.Fatal(err)
	}
	l, err := stage.Read(out)
	if err != nil {
		t.Fatal(err)
	}
	return l, set.Judge(l.Placed)
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
	l, v := laid(t, marked, 400)
	equal(t, "pieces without a place on three hides", l.Missing, 0)
	if !l.Verified || !v.Whole() || v.Gap < stage.Clearance-0.001 {
		t.Errorf("three hides: %+v", v)
	}
	equal(t, "the fascia pad moves to", where(l.Placed, "T21"), "H1")

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
	l, v = laid(t, marked, 1000, "H3")
	if l.Missing < 5 || len(v.Faults) > 0 || !l.Verified {
		t.Errorf("on two hides %d pieces have no place, want several; verdict %+v", l.Missing, v.Faults)
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
