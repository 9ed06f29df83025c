package trim

import (
	"strings"
	"testing"

	"fettle/build"
	stage "fettle/stage/trim"
	"fettle/unit"
)

// TestRoll_EnteredAndRefused: a roll with its pattern goes on the slip.
func TestRoll_EnteredAndRefused(t *testing.T) {
	s := trimShop(t)
	holds(t, s.Get("trim/roll"), 200, `value="R4"`, "comes again every")
	holds(t, s.Get("trim/roll/R2"), 200, "wrack carpet", "1400")
	holds(t, s.Get("trim/roll/R9"), 404)
	form := []string{"id", "r4", "material", "deckchair cloth", "width", "1400", "edge", "12.5", "gap", "2", "nap", "yes", "repeat", "320", "across", "250", "begins-x", "40", "begins-y", "", "lot", "DC-4", "price", "31.50", "part", ""}
	if got := s.Post("trim/roll", form...); got.See != "/b/pedlar/slip" {
		t.Fatalf("%d %.400s", got.Status, got.Body)
	}
	const mm = unit.Millimetre
	want := build.Roll{ID: "R4", Material: "deckchair cloth", Width: 1400 * mm, Edge: 12*mm + mm/2, Gap: 2 * mm, Nap: true, Repeat: 320 * mm, Across: 250 * mm, Begins: build.Spot{40 * mm, 0}, Lot: "DC-4", Price: 31_50}
	if r := s.Slip(t)[0].(*build.SetRoll).Roll; r != want {
		t.Errorf("entered %+v, want %+v", r, want)
	}
	for field, value := range map[string]string{"material": "", "width": "0", "repeat": "-1", "begins-x": "400", "edge": "700", "part": "Q999"} {
		holds(t, trimShop(t).Post("trim/roll", with(form, field, value)...), 422)
	}
}

// TestAsk_OnARoll: laid as hides are, kept through the slip, and bought by.
func TestAsk_OnARoll(t *testing.T) {
	s := trimShop(t)
	holds(t, s.Get("trim/lay/quilted%20vinyl"), 200, "these are rows, to buy by", "Have them laid", "Change the roll", "1.70 = 1.70 m")
	path, out := waitedOn(t, s, "quilted%20vinyl", "steps", "60")
	if out.State != "done" || !out.Laid.Verified || len(out.Laid.Placed) != 2 || out.Laid.Length < 1700 || out.Laid.Length > 1700.1 {
		t.Fatalf("%s, %+v", out.State, out.Laid)
	}
	holds(t, s.Get(path), 200, "All 2 pieces lie on 1.700 m of roll R3.", "Keep it: see what it does", "Roll R3")
	if got := s.Post(path + "/keep"); got.See != "/b/pedlar/slip" {
		t.Fatalf("kept: %d %.300s", got.Status, got.Body)
	}
	if l := s.Slip(t)[0].(*build.KeepLayout).Layout; l.Roll != "R3" || len(l.Placed) != 2 || l.Placed[0].Hide != "" {
		t.Errorf("kept %+v", l)
	}
	holds(t, s.Get("trim/lay/quilted%20vinyl"), 200, "All 2 pieces are laid and can be cut as they lie", "1.700 m; × 1.10 = 1.87 → 2 m", "Fix these where they lie")
	holds(t, s.Get("trim/lay/quilted%20vinyl?as=paper"), 200, "Roll R3: cut plan, quilted vinyl", "Square the end")
	for path, begins := range map[string]string{"plan": "999", "plan?form=pdf": "%PDF"} {
		if got := s.Get("trim/lay/quilted%20vinyl/" + path); got.Status != 200 || !strings.HasPrefix(got.Body, begins) {
			t.Errorf("%s: %d %.40q", path, got.Status, got.Body)
		}
	}
}

// TestDrawRoll_PatternAndAnchors: lines where the pattern comes again, and every
// cross of a rows' plan on the piece that it belongs to.
func TestDrawRoll_PatternAndAnchors(t *testing.T) {
	const mm = unit.Millimetre
	b := build.Build{Rolls: []build.Roll{{ID: "R1", Material: "plaid", Width: 1000 * mm, Repeat: 400 * mm, Across: 300 * mm, Begins: build.Spot{0, 50 * mm}}},
		Pieces: []build.Piece{{ID: "T1", Name: "panel", Width: 500 * mm, Height: 200 * mm, Quantity: 2, Handed: true, Material: "plaid", Grade: "A", Match: build.Match{Along: true, At: build.Spot{100 * mm, 200 * mm}}}}}
	d := drawRoll(b.Rolls[0], stage.Cuts(&b, "plaid"), stage.RowsOf(&b, b.Rolls[0]).Placed, nil)
	if len(d.Pattern) != 2+4 {
		t.Errorf("%d lines, want 2 along and 4 across: %v", len(d.Pattern), d.Pattern)
	}
	if len(d.Pieces) != 2 {
		t.Fatalf("%d pieces", len(d.Pieces))
	}
	for _, p := range d.Pieces {
		box := p.Shape.Bounds()
		if len(p.Anchor) != 1 || p.Anchor[0].X != box.Min.X+100 || p.Anchor[0].Y != box.Max.Y && p.Anchor[0].Y != box.Min.Y {
			t.Errorf("%s in %+v has its cross at %v", p.Name, box, p.Anchor)
		}
	}
}

// TestLay_SaysWhatIsLeft: the largest remnant of a hide is drawn and named, on
// screen, on paper and in the drawing to cut by.
func TestLay_SaysWhatIsLeft(t *testing.T) {
	s := trimShop(t)
	holds(t, s.Get("trim/lay/tan%20leather"), 200, "left in one piece", `class="lay-left"`, "left: ")
	holds(t, s.Get("trim/lay/tan%20leather?as=paper"), 200, "left in one piece", `class="lay-left"`)
	holds(t, s.Get("trim/lay/tan%20leather?as=json"), 200, `"remnants"`, `"length_mm"`)
	if got := s.Get("trim/lay/tan%20leather/plan?hide=H3"); !strings.Contains(got.Body, "\nLEFT\n") {
		t.Error("the drawing has no layer of what is left")
	}
}

// TestWantMetres: the line in Stores follows what is laid, up and down, until
// it is ordered.
func TestWantMetres(t *testing.T) {
	const cloth = "oatmeal headliner cloth"
	b := trimShop(t).Build(t)
	if c := wantMetres(&b, cloth); c != nil {
		t.Errorf("4 m are right, and it wants %+v", c)
	}
	for _, n := range []int{2, 6} {
		b.Part("Q55").Quantity = n
		if c := wantMetres(&b, cloth); len(c) != 1 || *c[0].(*build.WantPart) != (build.WantPart{Part: "Q55", Quantity: 4}) {
			t.Errorf("from %d m: %+v", n, c)
		}
	}
	b.Part("Q55").State = build.Ordered
	if c := wantMetres(&b, cloth); c != nil {
		t.Errorf("an ordered line is changed: %+v", c)
	}
	if c := wantMetres(&b, "tan leather"); c != nil {
		t.Errorf("hides by the metre: %+v", c)
	}
}
