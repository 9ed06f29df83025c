package look_test

import (
	"testing"

	"fettle/build"
	"fettle/stage/look"
	"fettle/unit"
)

// slab is a build with one side panel 1 m long from z 0 to 1000 that is divided
// at z 400: 0.6 m² above, 0.4 below, and a hole for a lamp high up in another.
func slab() *build.Build {
	line := func(z unit.Length) build.Break {
		return build.Break{Z: z * unit.Millimetre, Upper: "up", Lower: "low"}
	}
	return &build.Build{
		Views: []build.View{{ID: "top", Plane: "xy"}, {ID: "left", Plane: "xz"}},
		Panels: []build.Panel{
			{ID: "A", Areas: []build.ZoneArea{{Zone: "low", Area: 400_000}, {Zone: "jamb", Area: 50_000}, {Zone: "up", Area: 600_000}},
				Outlines: []build.Outline{{View: "top", Path: "M 0 0 L 9 0 L 9 9 Z"}, {View: "left", Path: "M 0 0 L 1000 0 L 1000 1000 L 0 1000 Z"}}},
			{ID: "B", Areas: []build.ZoneArea{{Zone: "up", Area: 500_000}, {Zone: "jamb", Area: 50_000}},
				Outlines: []build.Outline{{View: "left", Path: "M 0 500 L 1000 500 L 1000 1000 L 0 1000 Z"}}},
			{ID: "C", Areas: []build.ZoneArea{{Zone: "up", Area: 300_000}}},
			{ID: "D", Areas: []build.ZoneArea{{Zone: "jamb", Area: 300_000}}, Outlines: []build.Outline{{View: "left", Path: "M 0 0 L 1000 0 L 1000 1000 Z"}}},
		},
		Looks: []build.Look{{ID: "now", Break: line(400), Chosen: true}, {ID: "high", Break: line(750)}, {ID: "low", Break: line(200)}, {ID: "same", Break: line(400)}},
	}
}

func TestDivide_ByHand(t *testing.T) {
	type parts = map[build.PanelID]string
	for id, want := range map[build.LookID]parts{
		"high": {"A": "low 0.75 m² jamb 0.05 m² up 0.25 m²", "B": "up 0.25 m² low 0.25 m² jamb 0.05 m²"},
		"low":  {"A": "low 0.20 m² jamb 0.05 m² up 0.80 m²"},
		"same": {},
	} {
		b := slab()
		got := parts{}
		for _, p := range look.Divide(b, *b.Look(id)).Panels {
			text := ""
			var sum unit.Area
			for _, a := range p.Areas {
				text += " " + string(a.Zone) + " " + a.Area.String()
				sum += a.Area
			}
			got[p.Panel] = text[1:]
			if sum != b.Panel(p.Panel).Area() {
				t.Errorf("%s %s: the parts add up to %s", id, p.Panel, sum)
			}
		}
		if len(got) != len(want) || got["A"] != want["A"] || got["B"] != want["B"] {
			t.Errorf("%s: %v, want %v", id, got, want)
		}
	}
}
