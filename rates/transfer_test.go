package rates_test

import (
	"math"
	"strings"
	"testing"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/rates"
	"fettle/unit"
)

// sprayed is a build with one mix of epoxy on 10 m²: 1.7 l mixed, 0.2 l left,
// 0.2 l in cup and hose, 50 % solids, so 1.3 l carried 650 ml of dry paint.
func sprayed() build.Build {
	return build.Build{
		Zones:    []build.Zone{{ID: "z"}},
		Panels:   []build.Panel{{ID: "P", Areas: []build.ZoneArea{{Zone: "z", Area: 10 * unit.SquareMetre}}}},
		Products: []build.Product{{ID: "ep", Use: build.Epoxy, Solids: 50, Coats: 2, Film: 20, Transfer: 0.6, FillPurge: 200_000, Zones: []build.ZoneID{"z"}}},
		Pours:    []build.Pour{{ID: "M", Product: "ep", Parts: []build.Poured{{Volume: 1_700_000}}, At: 10, Weighed: 30, Left: 200_000}},
		Coats: []build.Coat{
			{ID: "1", Product: "ep", Panels: []build.PanelID{"P"}, Zones: []build.ZoneID{"z"}, At: 20, Pour: "M"},
			{ID: "2", Product: "ep", Panels: []build.PanelID{"P"}, Zones: []build.ZoneID{"z"}, At: 25, Pour: "M"},
		},
	}
}

func TestTransfer_OfMixesWeighedBack(t *testing.T) {
	epoxy := sprayed().Products[0]
	for _, tt := range []struct {
		what string
		do   func(*build.Build)
		want float64
		n    string
	}{
		{"two coats of 20 µm are 400 ml of 650", func(*build.Build) {}, (6 + 400./650) / 11, "n = 1"},
		{"as the gauge read: 48 µm for both", func(b *build.Build) {
			b.Films = []build.Film{{Panel: "P", Product: "ep", Dry: []float64{70, 78}, Under: 26, At: 40}}
		}, (6 + 480./650) / 11, "n = 1"},
		{"readings from before the coat say nothing", func(b *build.Build) {
			b.Films = []build.Film{{Panel: "P", Product: "ep", Dry: []float64{90}, At: 15}}
		}, (6 + 400./650) / 11, "n = 1"},
		{"two mixes", func(b *build.Build) {
			m := b.Pours[0]
			m.ID = "N"
			b.Pours, b.Coats[1].Pour = append(b.Pours, m), "N"
		}, (6 + 2*200./650) / 12, "n = 2"},
		{"not weighed back", func(b *build.Build) { b.Pours[0].Weighed = 0 }, 0.6, ""},
		{"no coat on record", func(b *build.Build) { b.Coats = nil }, 0.6, ""},
		{"more on the panel than was sprayed", func(b *build.Build) { b.Pours[0].Left = 1_400_000 }, 0.6, ""},
		{"all of it still in the cup", func(b *build.Build) { b.Pours[0].Left = 1_700_000 }, 0.6, ""},
		{"another use", func(b *build.Build) { b.Products[0].Use = build.Clear }, 0.6, ""},
	} {
		b := sprayed()
		tt.do(&b)
		got, in := rates.Learn(b).Transfer(epoxy)
		if math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("%s: %.4f, want %.4f", tt.what, got, tt.want)
		}
		if own := in.Source == figure.OwnPast; own != (tt.n != "") || !strings.HasPrefix(in.Note, tt.n) {
			t.Errorf("%s: %+v", tt.what, in)
		}
	}
}

// TestTransfer_OfTheDemo: the painter weighed back two mixes of epoxy, one of
// which was left on record, and three of base, which came out as the sheet says.
func TestTransfer_OfTheDemo(t *testing.T) {
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	b, err := scenario.Replay(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	r := rates.Learn(b)
	for _, tt := range []struct {
		id   build.ProductID
		want float64
		n    string
	}{{"epoxy", 0.599, "n = 1 mix weighed"}, {"base-limewash", 0.6, "n = 3 "}, {"base-slackwater", 0.6, "n = 3 "}, {"clear", 0.62, "weigh"}} {
		if got, in := r.Transfer(*b.Product(tt.id)); math.Abs(got-tt.want) > 0.001 || !strings.HasPrefix(in.Note, tt.n) {
			t.Errorf("%s: %.4f, %s; want %.3f, %s", tt.id, got, in.Note, tt.want, tt.n)
		}
	}
}
