package takeoff_test

import (
	"math"
	"strings"
	"testing"

	"fettle/build"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/unit"
)

// painted is a build with 10 m² in one zone and two products that share a
// reducer: 50 % solids, 50 µm, half of it arrives, so a litre covers 5 m².
func painted() *build.Build {
	product := func(id build.ProductID, name string) build.Product {
		return build.Product{ID: id, Name: name, Mix: []float64{3, 0, 1}, Solids: 50, Coats: 1, Film: 50, Transfer: 0.5, Zones: []build.ZoneID{"z"}, Flash: 30,
			Parts: []build.MixPart{{Name: name, TinSize: unit.Litre, TinPrice: 40_00}, {}, {Name: "reducer", TinSize: 5 * unit.Litre, TinPrice: 25_00}}}
	}
	return &build.Build{
		Zones:    []build.Zone{{ID: "z"}, {ID: "wheels", Extra: unit.SquareMetre}},
		Panels:   []build.Panel{{ID: "A", Areas: []build.ZoneArea{{Zone: "z", Area: 6 * unit.SquareMetre}}}, {ID: "B", Areas: []build.ZoneArea{{Zone: "z", Area: 4 * unit.SquareMetre}}}},
		Products: []build.Product{product("red", "red"), product("blue", "blue")},
	}
}

func TestTinsOf(t *testing.T) {
	for _, tt := range []struct {
		what  string
		do    func(*build.Build)
		spare float64
		want  map[string]string
	}{
		{"2 l of each, three parts of four", func(*build.Build) {}, 0,
			map[string]string{"red": "2 × 1.00 l", "blue": "2 × 1.00 l", "reducer": "1 × 5.00 l"}},
		{"the spare asks for another tin", func(b *build.Build) { b.Zones[0].Extra = 10 * unit.SquareMetre / 3 }, 0.10,
			map[string]string{"red": "3 × 1.00 l", "blue": "3 × 1.00 l", "reducer": "1 × 5.00 l"}},
		{"what came in counts, poured or not", func(b *build.Build) {
			b.Tins = []build.Tin{{ID: "1", Product: "red", Size: unit.Litre, Left: 0}, {ID: "2", Product: "blue", Part: 2, Size: unit.Litre, Left: unit.Litre}}
			b.Pours = []build.Pour{{ID: "m", Product: "red", Parts: []build.Poured{{Tin: "1", Volume: unit.Litre}}}}
		}, 0, map[string]string{"red": "1 × 1.00 l", "blue": "2 × 1.00 l", "reducer": "0 × 5.00 l"}},
		{"nobody knows how it is sold", func(b *build.Build) { b.Products = b.Products[:1]; b.Products[0].Parts = nil }, 0,
			map[string]string{"red, paint": "1.50 l", "red, reducer": "0.50 l"}},
		{"paint for no zone is not bought", func(b *build.Build) { b.Products[1].Zones = nil }, 0,
			map[string]string{"red": "2 × 1.00 l", "reducer": "1 × 5.00 l"}},
	} {
		b := painted()
		tt.do(b)
		got := takeoff.TinsOf(b, rates.Default(), tt.spare)
		if len(got) != len(tt.want) {
			t.Errorf("%s: %d lines, want %d", tt.what, len(got), len(tt.want))
		}
		for _, line := range got {
			if line.Figure.Text != tt.want[line.Name] || !strings.HasSuffix(line.Figure.With, ": "+line.Figure.Text) {
				t.Errorf("%s: %s %q (%s), want %q", tt.what, line.Name, line.Figure.Text, line.Figure.With, tt.want[line.Name])
			}
			if line.Cost != 0 && line.Cost%25_00 != 0 && line.Cost%40_00 != 0 {
				t.Errorf("%s: %s costs %d", tt.what, line.Name, line.Cost)
			}
		}
	}
}

func TestLitres_WithWhatIsPaintedAgain(t *testing.T) {
	for _, tt := range []struct {
		what string
		redo build.Redo
		want float64
	}{
		{"one panel, its own coat", build.Redo{Panels: []build.PanelID{"A"}}, 2 + 1.2},
		{"a whole zone", build.Redo{Zones: []build.ZoneID{"z"}}, 2 + 2},
		{"a zone that the product has not", build.Redo{Panels: []build.PanelID{"A"}, Zones: []build.ZoneID{"wheels"}}, 2},
		{"of another product", build.Redo{Panels: []build.PanelID{"A"}, Coats: []build.RedoCoats{{Product: "blue", Coats: 1}}}, 2},
		{"two coats", build.Redo{Panels: []build.PanelID{"B"}, Coats: []build.RedoCoats{{Product: "red", Coats: 2}}}, 2 + 1.6},
	} {
		b := painted()
		if tt.redo.Coats == nil {
			tt.redo.Coats = []build.RedoCoats{{Product: "red", Coats: 1}}
		}
		b.Redos = []build.Redo{tt.redo}
		if got, f := takeoff.Litres(b, b.Products[0], rates.Default()); math.Abs(got.L()-tt.want) > 1e-6 || !strings.HasSuffix(f.With, "= "+f.Text) {
			t.Errorf("%s: %.3f l, want %.3f (%s)", tt.what, got.L(), tt.want, f.With)
		}
	}
}

func TestLitres_ByOwnTransfer(t *testing.T) {
	b := painted()
	b.Products[0].Use = build.Base
	r := rates.Rates{Transfers: []rates.Transfer{{Use: build.Base, Own: []float64{0.4, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4}}}}
	got, f := takeoff.Litres(b, b.Products[0], r)
	if math.Abs(got.L()-10/(10*50./50*0.45)) > 1e-6 || !strings.Contains(f.Inputs[3].Note, "n = 10") {
		t.Errorf("%s, %+v", got, f.Inputs)
	}
}

func TestCoating(t *testing.T) {
	p := painted().Products[0]
	hours, f := takeoff.Coating(p, 25*unit.SquareMetre, 3)
	if hours != unit.Hours(3*1.5) || !strings.HasSuffix(f.With, "= 4.5 h") {
		t.Errorf("%s: %s", hours, f.With)
	}
}
