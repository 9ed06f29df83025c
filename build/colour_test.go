package build_test

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/unit"
)

func card(f func(*build.Card)) build.Change {
	return &build.RecordCard{Card: with(with(cartCard(), func(c *build.Card) { c.ID = "C2" }), f)}
}

func aLook() build.Look {
	return build.Look{ID: "bold", Name: "Bold", Zones: []build.LookZone{{Zone: "inside", Colour: "blue", Base: "blue", Undercoat: "under"}},
		Panels: []build.LookPanel{{Panel: "P1", Areas: []build.ZoneArea{{Zone: "inside", Area: 2 * unit.SquareMetre}}}}}
}

func look(f func(*build.Look)) build.Change { return &build.AddLook{Look: with(aLook(), f)} }

func aColour(f func(*build.Colour)) build.Change {
	return &build.SetColour{Colour: with(build.Colour{ID: "kelp", Name: "Kelp", Face: "#3B4A2F", Flop: "#2A3626", Note: "to try"}, f)}
}

func actsOnColour() []act {
	return []act{
		{card(func(*build.Card) {}), "Spray-out of Top coat over Sealer, 2 steps", func(b *build.Build) any { return len(b.Cards) }, 2},
		{card(func(c *build.Card) { c.ID, c.Over, c.Steps = "C1", "", c.Steps[:1] }), "Spray-out of Top coat", func(b *build.Build) any { return line(len(b.Cards), len(b.Card("C1").Steps)) }, "1 1"},
		{&build.ChooseStep{Card: "C1", Step: 2}, "Step 2 of card C1 chosen: 2 coats", func(b *build.Build) any { return b.Card("C1").Chosen }, 2},
		{aColour(func(*build.Colour) {}), "Colour added: Kelp, drawn as #3B4A2F, flop #2A3626", func(b *build.Build) any { return line(len(b.Colours), b.Colour("kelp").Face) }, "3 #3B4A2F"},
		{aColour(func(c *build.Colour) { c.ID, c.Flop = "blue", "" }), "Colour Blue is now Kelp, drawn as #3B4A2F", func(b *build.Build) any { return line(len(b.Colours), b.Colour("blue").Name) }, "2 Kelp"},
		{aColour(func(c *build.Colour) { c.ID, c.Name, c.Flop = "blue", "Blue", "" }), "Colour Blue, drawn as #3B4A2F", func(b *build.Build) any { return b.Colour("blue").Note }, "to try"},
		{look(func(*build.Look) {}), "Look proposed: Bold", func(b *build.Build) any { return len(b.Looks) }, 3},
		{look(func(l *build.Look) { l.ID = "split" }), "Look proposed: Bold", func(b *build.Build) any { return line(len(b.Looks), b.Look("split").Name) }, "2 Bold"},
		{&build.ChooseLook{Look: "split"}, "Look chosen: Split",
			func(b *build.Build) any {
				return line(b.Zones[0].Colour, b.Product("top").Zones, b.Product("blue").Zones, b.Product("under").Zones, b.ZoneArea("inside"), b.Look("plain").Chosen, b.Look("split").Chosen)
			}, "blue [] [outside] [outside] 1.00 m² false true"},
		{&build.ChooseLook{Look: "plain"}, "Look chosen: Plain", func(b *build.Build) any { return b.Product("top").Zones[0] }, build.ZoneID("outside")},
	}
}

func noesOnColour() []no {
	reading := func(r build.Reading) build.Change {
		return card(func(c *build.Card) { c.Steps[1].Readings = append(c.Steps[1].Readings, r) })
	}
	return []no{
		{card(func(c *build.Card) { c.ID = "" }), 1, "card"},
		{card(func(c *build.Card) { c.Product = "tar" }), 2, "paint product tar"},
		{card(func(c *build.Card) { c.Over = "tar" }), 2, "over"},
		{card(func(c *build.Card) { c.Steps = nil }), 2, "steps"},
		{card(func(c *build.Card) { c.Steps[0].Coats = 0 }), 3, "steps, line 1"},
		{card(func(c *build.Card) { c.Steps[0].Film = -1 }), 3, "film_um"},
		{card(func(c *build.Card) { c.Day = 0 }), 5, "day"},
		{card(func(c *build.Card) { c.Chosen = 3 }), 3, "chosen"},
		{card(func(c *build.Card) { c.Steps[0].Readings = nil }), 12, "steps, line 1"},
		{card(func(c *build.Card) { c.Grounds = append(c.Grounds, build.Reading{}) }), 12, "grounds, reading 3"},
		{reading(build.Reading{Lab: []float64{1, 2, 3}, RGB: "#FFFFFF"}), 12, "line 2, reading 3"},
		{reading(build.Reading{Spectrum: []float64{1}}), 12, "spectrum"},
		{reading(build.Reading{Lab: []float64{1}}), 12, "lab"},
		{reading(build.Reading{Lab: []float64{1, 2, 300}}), 3, "lab"},
		{reading(build.Reading{RGB: "teal"}), 12, "rgb"},
		{reading(build.Reading{RGB: "#FFFFFF", Angle: "side"}), 4, "angle"},
		{card(func(c *build.Card) { c.Steps[0].Readings[0].Spectrum[3] = -0.1 }), 3, "spectrum"},
		{&build.ChooseStep{Card: "C8", Step: 1}, 2, "card C8"},
		{&build.ChooseStep{Card: "C1", Step: 3}, 3, "step"},
		{&build.ChooseStep{Card: "C1"}, 3, "step"},
		{aColour(func(c *build.Colour) { c.ID = "" }), 1, "colour"},
		{aColour(func(c *build.Colour) { c.Name = " " }), 10, "colour kelp, name"},
		{aColour(func(c *build.Colour) { c.Face = "" }), 12, "colour kelp, face"},
		{aColour(func(c *build.Colour) { c.Face = "green" }), 12, "colour kelp, face"},
		{aColour(func(c *build.Colour) { c.Flop = "#12345" }), 12, "colour kelp, flop"},
		{aColour(func(c *build.Colour) { c.Note = strings.Repeat("x", 4001) }), 3, "colour kelp, note"},
		{look(func(l *build.Look) { l.ID = "" }), 1, "look"},
		{look(func(l *build.Look) { l.ID = "plain" }), 9, "look plain"},
		{look(func(l *build.Look) { l.Chosen = true }), 9, "chosen"},
		{look(func(l *build.Look) { l.Name = "" }), 10, "name"},
		{look(func(l *build.Look) { l.Zones[0].Zone = "moon" }), 2, "paint zone moon"},
		{look(func(l *build.Look) { l.Zones[0].Colour = "moon" }), 2, "colour moon"},
		{look(func(l *build.Look) { l.Zones[0].Base = "tar" }), 2, "paint product tar"},
		{look(func(l *build.Look) { l.Zones[0].Base = "under" }), 4, "base"},
		{look(func(l *build.Look) { l.Zones[0].Undercoat = "top" }), 4, "undercoat"},
		{look(func(l *build.Look) { l.Break.Upper = "moon" }), 2, "break_line"},
		{look(func(l *build.Look) { l.Break.Z = 30 * unit.Metre }), 3, "break_line"},
		{look(func(l *build.Look) { l.Panels[0].Panel = "P9" }), 2, "panel P9"},
		{look(func(l *build.Look) { l.Panels[0].Areas[0].Zone = "moon" }), 2, "paint zone moon"},
		{look(func(l *build.Look) { l.Panels[0].Areas[0].Area-- }), 11, "panels, P1"},
		{look(func(l *build.Look) {
			l.Panels[0].Areas = []build.ZoneArea{{Zone: "inside", Area: -1}, {Zone: "outside", Area: 2_000_001}}
		}), 3, "panels, P1"},
		{&build.ChooseLook{Look: "moon"}, 2, "look moon"},
	}
}

// TestChooseLook_AndBack: choosing the first look again gives every zone the
// paint it had.
func TestChooseLook_AndBack(t *testing.T) {
	b, err := build.ApplyAll(cart(), []build.Change{&build.ChooseLook{Look: "split"}, &build.ChooseLook{Look: "plain"}})
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Product("blue").Zones) != 0 || b.Product("top").Zones[0] != "outside" || b.Zones[0].Colour != "grey" {
		t.Errorf("zones of blue %v, of top %v", b.Product("blue").Zones, b.Product("top").Zones)
	}
	if got := b.Panel("P1"); len(got.Areas) != 1 || got.Areas[0].Area != 2*unit.SquareMetre || got.Undivided != nil {
		t.Errorf("the panel is divided into %v, %v", got.Areas, got.Undivided)
	}
	if before := cart(); before.Panels[0].Areas[0].Area != 2*unit.SquareMetre || len(before.Panels[0].Areas) != 1 {
		t.Error("the look reached through a clone")
	}
}
