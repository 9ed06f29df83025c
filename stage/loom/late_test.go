package loom

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/unit"
)

// TestLateHole_ByStateOfThePanel: nothing in metal, priming anew in primer, a
// respray in colour. A panel of 2 m² in one zone: primer 2 m² ÷ (10 × 50 % ÷ 100
// µm × 0.5) = 0.8 l and a purge of 0.1; base 2 ÷ (10 × 20 ÷ 20 × 0.5) = 0.4 l.
func TestLateHole_ByStateOfThePanel(t *testing.T) {
	b := build.Build{
		Panels: []build.Panel{{ID: "P1", Name: "door", Areas: []build.ZoneArea{{Zone: "grey", Area: 2 * unit.SquareMetre}}}},
		Products: []build.Product{
			{ID: "primer", Use: build.Primer, Solids: 50, Coats: 2, Film: 50, Transfer: 0.5, Purge: unit.Litre / 10, Zones: []build.ZoneID{"grey"}},
			{ID: "base", Use: build.Base, Solids: 20, Coats: 2, Film: 10, Transfer: 0.5, Zones: []build.ZoneID{"grey"}},
			{ID: "other", Use: build.Primer, Solids: 50, Coats: 2, Film: 50, Transfer: 0.5, Zones: []build.ZoneID{"elsewhere"}},
		},
	}
	h := build.Hole{ID: "H1", Panel: "P1", Diameter: 20 * unit.Millimetre}
	for _, tt := range []struct {
		state build.PanelState
		want  string
	}{{build.Repair, ""}, {build.InMetal, ""}, {build.InEpoxy, ""}, {build.InPrimer, "0.9"}, {build.ReadyForColour, "0.9"}, {build.InColour, "12 to 25 h, 1.3"}, {build.Fitted, "12 to 25 h, 1.3"}} {
		b.Panels[0].State = tt.state
		f, late := LateHole(&b, h)
		if late != (tt.want != "") || !strings.HasPrefix(f.Text, tt.want) {
			t.Errorf("%s: %v %q, want %q", tt.state, late, f.Text, tt.want)
		}
	}
}
