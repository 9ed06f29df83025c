package paint_test

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/rates"
	"fettle/stage/paint"
	"fettle/unit"
)

// expected litres of the demo's system over all rounds, as the maker's sheets
// of the scenario give them; half of the last digit printed is the tolerance.
var expected = []struct {
	id     build.ProductID
	litres float64
	within float64
}{
	{"epoxy", 11.0, 0.05},
	{"high-build", 17.6, 0.05},
	{"sealer-black", 1.16, 0.005},
	{"sealer-grey", 1.85, 0.005},
	{"base-limewash", 4.2, 0.05},
	{"base-slackwater", 2.23, 0.005},
	{"clear", 6.3, 0.05},
	{"satin-grey", 5.75, 0.005},
}

func pedlar(t *testing.T) *build.Build {
	t.Helper()
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	return &f.Build
}

func TestLitres_OfTheDemo(t *testing.T) {
	b := pedlar(t)
	for i, want := range expected {
		p := b.Products[i]
		got, f := paint.Litres(b, p)
		if p.ID != want.id || math.Abs(got.L()-want.litres) > want.within+1e-9 {
			t.Errorf("%s = %.3f l, want %s %.2f ± %.3f", p.ID, got.L(), want.id, want.litres, want.within)
		}
		if f.Text != got.String() || !strings.HasSuffix(f.With, "= "+f.Text) || f.Caution == "" || len(f.Inputs) != len(p.Zones)+4 {
			t.Errorf("%s: working %+v", p.ID, f)
		}
	}
}

// TestLitres_AsTheScenarioPrints holds our own table to the printed one.
func TestLitres_AsTheScenarioPrints(t *testing.T) {
	text, err := os.ReadFile("../../../shared/product/scenario.md")
	if err != nil {
		t.Skip("no ../shared beside this checkout: the table of our own stands alone")
	}
	_, table, ok := strings.Cut(string(text), "Expect RTS l |")
	if !ok {
		t.Skip("the scenario has no table of expected litres")
	}
	cell := regexp.MustCompile(`(?m)^\|[^\n]*\| ([0-9.]+)(?: \(([0-9.]+)\))? \|$`)
	rows := cell.FindAllStringSubmatch(table, len(expected))
	if len(rows) != len(expected) {
		t.Fatalf("%d rows of litres, want %d", len(rows), len(expected))
	}
	for i, row := range rows {
		printed := row[1]
		if expected[i].id == "high-build" {
			printed = row[2] // for both rounds
		}
		if got, err := strconv.ParseFloat(printed, 64); err != nil || got != expected[i].litres {
			t.Errorf("%s: the scenario prints %s l, our table %v", expected[i].id, printed, expected[i].litres)
		}
	}
}

// TestLitres_ByHand works out one square metre: 10 × 50 % ÷ 50 µm × 0.5 covers
// 5 m² a litre, so a coat takes 0.2 l.
func TestLitres_ByHand(t *testing.T) {
	b := &build.Build{Zones: []build.Zone{{ID: "z", Extra: unit.SquareMetre}}}
	p := build.Product{Solids: 50, Coats: 1, Film: 50, Transfer: 0.5, Purge: 100_000, Zones: []build.ZoneID{"z"}}
	for _, tt := range []struct {
		what string
		do   func(*build.Product)
		want unit.Volume
	}{
		{"one coat, one round", func(*build.Product) {}, 300_000},
		{"two coats", func(p *build.Product) { p.Coats = 2 }, 500_000},
		{"two rounds, each with its purge", func(p *build.Product) { p.Rounds = 2 }, 600_000},
		{"half the solids", func(p *build.Product) { p.Solids = 25 }, 500_000},
		{"all paint arrives", func(p *build.Product) { p.Transfer = 1 }, 200_000},
		{"no zone: the purge alone", func(p *build.Product) { p.Zones = nil }, 100_000},
	} {
		q := p
		tt.do(&q)
		if got, _ := paint.Litres(b, q); got != tt.want {
			t.Errorf("%s = %v, want %v", tt.what, got, tt.want)
		}
	}
}

func TestWork_CarriesTheCautionOfSpraying(t *testing.T) {
	list := paint.Stage{}.TakeOff(pedlar(t), rates.Default())
	if len(list.Work) == 0 {
		t.Fatal("no work in paint")
	}
	for _, w := range list.Work {
		if len(w.Cautions) == 0 || !strings.Contains(w.Cautions[0], "isocyanates") || !strings.Contains(w.Figure.Caution, "isocyanates") {
			t.Errorf("%s %s: cautions %q, want that of spraying first", w.Task, w.Trade, w.Cautions)
		}
	}
}
