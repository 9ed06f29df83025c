package paint_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"fettle/build"
	"fettle/rates"
	"fettle/stage/paint"
	"fettle/unit"
)

var doors = []build.PanelID{"P11", "P12", "P58", "P59"}

// teal is the demo with the colour's tins as they were given.
func teal(t *testing.T) *build.Build {
	t.Helper()
	b := pedlar(t)
	b.Tins = []build.Tin{
		{ID: "N08", Product: "base-slackwater", Batch: "S-0114", Size: unit.Litre, Left: unit.Litre},
		{ID: "N09", Product: "base-slackwater", Batch: "S-0114", Size: unit.Litre / 2, Left: unit.Litre / 2},
		{ID: "N10", Product: "base-limewash", Part: 2, Grade: "fast", Size: 5 * unit.Litre, Left: 5 * unit.Litre},
	}
	return b
}

func pour(t *testing.T, b *build.Build, id build.ProductID, metal, cup float64) paint.Pouring {
	t.Helper()
	m, err := paint.Session(b, id, doors, nil, b.Product(id).Coats, rates.Default())
	if err != nil {
		t.Fatal(err)
	}
	p, err := paint.Pour(b, m, metal, cup)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func about(a, b, within float64) bool { return math.Abs(a-b) <= within }

func TestPour_FourDoors(t *testing.T) {
	p := pour(t, teal(t), "base-slackwater", 18, 20)
	if len(p.Lines) != 2 || !p.Weighed || p.Lines[0].Part != 0 || p.Lines[1].Part != 2 || !p.Lines[1].Graded {
		t.Fatalf("lines %+v, want colour and reducer, on the scale", p.Lines)
	}
	// 0.569 l: 5/9 colour of 1.00 kg/l, 4/9 reducer of 0.87.
	if l := p.Lines; !about(l[0].Ml, 316, 1) || !about(l[0].Scale, 316, 1) || !about(l[1].Ml, 253, 1) || !about(l[1].Scale, 536, 1) {
		t.Errorf("pours %+v, want 316 ml to 316 g, then 253 ml to 536 g", l)
	}
	if p.Grade.Name != "fast" || p.NoGrade != "" || p.Pot != 0 || p.NoPot != "" {
		t.Errorf("grade %q %q, pot %v %q, want fast and no pot life", p.Grade.Name, p.NoGrade, p.Pot, p.NoPot)
	}
	if len(p.Batches) != 1 || !p.Batches[0].Enough || !about(p.Batches[0].After.L(), 1.18, 0.005) || !about(p.Still.L(), 0.92, 0.005) {
		t.Errorf("batches %+v, still %v, want 1.18 l of one batch for 0.92 l", p.Batches, p.Still)
	}
}

func TestPour_SaysWhatItCannotTell(t *testing.T) {
	b := teal(t)
	for _, tt := range []struct {
		what       string
		metal, cup float64
		grade, pot bool
	}{
		{"nobody read anything", math.NaN(), math.NaN(), false, false},
		{"too cold for any grade", 2, 20, false, true},
		{"a cup hotter than pot lives are known for", 20, 50, true, false},
		{"a usual day", 20, 20, true, true},
	} {
		p := pour(t, b, "clear", tt.metal, tt.cup)
		if (p.NoGrade == "") != tt.grade || (p.NoPot == "") != tt.pot {
			t.Errorf("%s: grade %q (%q), pot %v (%q)", tt.what, p.Grade.Name, p.NoGrade, p.Pot, p.NoPot)
		}
	}
	if p := pour(t, b, "clear", 20, 30); !about(p.Pot, 90, 1) { // 180 min, half of it 10 °C warmer
		t.Errorf("pot life at 30 °C is %.0f min, want 90", p.Pot)
	}
}

func TestPour_TwoBatchesAreTwoUnlessBoxed(t *testing.T) {
	b := teal(t)
	b.Tins[1].Batch = "S-0115"
	if p := pour(t, b, "base-slackwater", 18, 20); len(p.Batches) != 2 || p.Batches[0].Enough || p.Batches[1].Enough {
		t.Errorf("batches %+v, want two, neither enough", p.Batches)
	}
	b.Tins[0].Boxed, b.Tins[1].Boxed = "N08", "N08"
	if p := pour(t, b, "base-slackwater", 18, 20); len(p.Batches) != 1 || !p.Batches[0].Enough || p.Batches[0].Name != "S-0114 + S-0115" {
		t.Errorf("batches %+v, want one of both names", p.Batches)
	}
}

func TestDraw_GoesOnWithTheBatch(t *testing.T) {
	b := teal(t)
	p := *b.Product("base-slackwater")
	got, err := paint.Draw(b, p, build.Poured{Tin: "N09", Volume: 800_000, Mass: 800_000})
	if err != nil || len(got) != 2 || got[0].Tin != "N09" || got[0].Volume != 500_000 || got[1].Tin != "N08" || got[1].Volume != 300_000 || got[1].Mass != 300_000 {
		t.Errorf("drawn %+v, %v", got, err)
	}
	for what, q := range map[string]build.Poured{
		"more than the batch": {Tin: "N08", Volume: 2 * unit.Litre},
		"a tin of reducer":    {Tin: "N10", Volume: 100_000},
		"no such tin":         {Tin: "N99", Volume: 100_000},
	} {
		if got, err := paint.Draw(b, p, q); err == nil {
			t.Errorf("%s: %+v, want a refusal", what, got)
		}
	}
}

func TestAmiss_FlagsTheHardener(t *testing.T) {
	clear := *pedlar(t).Product("clear")
	r := []float64{990, 530, 65.25} // 1000 : 500 : 75 ml
	if off, add, err := paint.Amiss(clear, r); err != nil || slices.ContainsFunc(add, func(g float64) bool { return g > 0.5 }) || off[1].Flagged {
		t.Errorf("as the sheet says: off %+v, add %v, %v", off, add, err)
	}
	r[1] = 477 // a tenth less
	if off, add, err := paint.Amiss(clear, r); err != nil || !off[1].Flagged || !about(add[1], 53, 0.5) {
		t.Errorf("a tenth less hardener: off %+v, add %v, %v", off, add, err)
	}
	if _, _, err := paint.Amiss(clear, []float64{0, 1, 1}); err == nil {
		t.Error("no paint in the cup is not refused")
	}
}

func TestSolvent_OfTheMix(t *testing.T) {
	b := pedlar(t)
	voc, f, ok := paint.Solvent(*b.Product("base-slackwater"))
	if want := (700 + 0.8*870) / 1.8; !ok || !about(voc, want, 0.5) || f.Text == "" || len(f.Inputs) != 2 {
		t.Errorf("solvent %v of %v, want %.1f g/l with its working", voc, f, want)
	}
	own, _, _ := paint.Solvent(*b.Product("clear"))
	if both, ok := paint.SolventStaged(b, *b.Product("base-slackwater")); !ok || both.Text != fmt.Sprintf("%.0f g/l", (voc+2*own)/3) {
		t.Errorf("with its clear %v, want (%.0f + 2 × %.0f) ÷ 3", both, voc, own)
	}
	if _, ok := paint.SolventStaged(b, *b.Product("clear")); ok {
		t.Error("a clear is taken for a base")
	}
	if _, _, ok := paint.Solvent(build.Product{Name: "x", Mix: []float64{1}}); ok {
		t.Error("a sheet that says nothing has a solvent figure")
	}
}

// TestLimitOf compares with the class the owner chose, a base and its clear as
// one topcoat where the class says so.
func TestLimitOf(t *testing.T) {
	b := pedlar(t)
	for _, tt := range []struct {
		id   build.ProductID
		over float64
		name string
		with string
	}{
		{"sealer-black", 2, "over the limit", "592.0 − 590 = 2.0 g/l"},
		{"high-build", 0, "under the limit", "540 − 508.2 = 32 g/l"},
		{"base-slackwater", 0, "under the limit", "620 − 595.1 = 25 g/l"},
		{"clear", 0, "under the limit", "620 − 595.1 = 25 g/l"}, // with the worse of its two bases
		{"base-limewash", 0, "under the limit", "620 − 574.8 = 45 g/l"},
	} {
		l, ok := paint.LimitOf(b, *b.Product(tt.id))
		if !ok || !about(l.Over, tt.over, 1e-6) || l.Figure.Name != tt.name || l.Figure.With != tt.with || len(l.Figure.Inputs) != 2 {
			t.Errorf("%s: %v, %+v", tt.id, ok, l)
		}
	}
	mid := build.Product{ID: "mid", Name: "Mid", Use: build.MidCoat, Over: []build.ProductID{"base-slackwater"}, Mix: []float64{1}, Parts: []build.MixPart{{VOC: 600}}}
	b.Products = append(b.Products, mid)
	b.Product("clear").Over = []build.ProductID{"mid"}
	if l, ok := paint.LimitOf(b, *b.Product("clear")); !ok || !about(l.VOC, (775.56+600+2*504.92)/4, 0.1) {
		t.Errorf("with a mid coat: %v, %+v", ok, l)
	}
	none := *b.Product("sealer-black")
	none.Solvent = ""
	if _, ok := paint.LimitOf(b, none); ok {
		t.Error("a product in no class has a limit")
	}
	none.Solvent, none.Parts = "sealer", nil
	if _, ok := paint.LimitOf(b, none); ok {
		t.Error("a sheet that says nothing of solvent has a limit")
	}
}

func TestRatio(t *testing.T) {
	for _, tt := range []struct {
		text string
		of   build.ExtraOf
		mix  []float64
		want build.Extra
	}{
		{"2:1 + 5 %", build.OfAll, []float64{2, 1, 0.15}, build.Extra{Percent: 5, Of: build.OfAll}},
		{"2:1+5%", build.OfPaint, []float64{2, 1, 0.1}, build.Extra{Percent: 5, Of: build.OfPaint}},
		{"1:0,8", "", []float64{1, 0.8}, build.Extra{}},
	} {
		mix, extra, err := paint.Ratio(tt.text, tt.of)
		if err != nil || !slices.Equal(mix, tt.mix) || extra != tt.want {
			t.Errorf("%s of %q: %v, %v, %v", tt.text, tt.of, mix, extra, err)
		}
	}
	for _, text := range []string{"", "2:x", "2:1 + 5 %", "2:1 + 500 %"} {
		if _, _, err := paint.Ratio(text, ""); err == nil {
			t.Errorf("%q of nobody knows what is taken", text)
		}
	}
}

func TestQueue_ByTheCoatsLaid(t *testing.T) {
	b := pedlar(t)
	got := paint.Queue(b)
	if len(got) != 2 || got[0].Product.ID != "epoxy" || !about(got[0].Area.M2(), 52.46, 0.005) || got[1].Product.ID != "sealer-grey" || len(got[1].Panels) != 0 {
		t.Fatalf("bare: %+v, want epoxy on 52.46 m² and sealer on the wheels", got)
	}
	lay := func(id build.ProductID, n int) {
		for i := range n {
			b.Coats = append(b.Coats, build.Coat{ID: build.CoatID(string(id) + string(rune('0'+i))), Product: id, Panels: doors, Zones: b.Product(id).Zones, Number: i + 1, At: unit.Moment(i + 1)})
		}
	}
	on := func(id build.ProductID) (paint.Due, bool) {
		all := paint.Queue(b)
		i := slices.IndexFunc(all, func(d paint.Due) bool { return d.Product.ID == id && slices.Contains(d.Panels, "P11") })
		if i < 0 {
			return paint.Due{}, false
		}
		return all[i], true
	}
	lay("epoxy", 2)
	lay("high-build", 4)
	if d, ok := on("high-build"); !ok || d.Coats != 2 {
		t.Errorf("after four of six coats: %+v, want two more", d)
	}
	lay("sealer-black", 1)
	lay("base-slackwater", 3)
	if d, ok := on("clear"); !ok || d.Coats != 3 || !slices.Contains(d.Zones, "slackwater") {
		t.Errorf("after the base: %+v, want three coats of clear", d)
	}
}

func TestSameInCups(t *testing.T) {
	names := paint.CupNames()
	if len(names) == 0 {
		t.Fatal("no cups")
	}
	for _, name := range names {
		if _, err := paint.SameInCups(name, -1); err == nil {
			t.Errorf("%s takes seconds below nothing", name)
		}
	}
	if _, err := paint.SameInCups("teacup", 18); err == nil {
		t.Error("a teacup is taken")
	}
}
