package trim

import (
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/pattern"
	"fettle/figure"
)

// foams is the foam of each kind: litres, mass and blocks.
func foams(b *build.Build) []Supply {
	var list []Supply
	for _, kind := range distinct(b.Foams, func(f build.Foam) string { return f.Kind }) {
		var volumes, masses []pattern.Amount
		s := Supply{Kind: FoamSupply, Name: kind, Unit: "blocks"}
		for _, f := range b.Foams {
			if f.Kind != kind {
				continue
			}
			litres := f.Width.Mm() * f.Height.Mm() * f.Thickness.Mm() * float64(f.Quantity) / 1e6
			name := string(f.ID) + " " + f.Name
			volumes = append(volumes, pattern.Amount{Value: litres, Unit: "l", Working: figure.Figure{Name: name, Text: fmt.Sprintf("%.1f l", litres), Formula: "number × width × height × thickness",
				With: fmt.Sprintf("%d × %.0f × %.0f × %.0f mm", f.Quantity, f.Width.Mm(), f.Height.Mm(), f.Thickness.Mm())}})
			if m, err := pattern.Foam(pattern.Given{Value: litres, Source: figure.Measured, Note: name}, pattern.Given{Value: f.Density, Source: figure.Sheet}); err == nil {
				masses = append(masses, named(m, name))
			}
			s.Buy += f.Quantity
			s.Note = foamWords(f)
			s.covers(f.Part, string(f.ID))
		}
		s.Amount = total("foam, "+kind, volumes, "l", 1)
		mass := total("mass of the foam, "+kind, masses, "kg", 2).Working
		s.Mass = &mass
		list = append(list, s)
	}
	return list
}

func foamWords(f build.Foam) string {
	text := fmt.Sprintf("%g kg/m³", f.Density)
	if f.ILD > 0 {
		text += fmt.Sprintf(", ILD %g", f.ILD)
	}
	return text
}

// boards is the boards of each material and their clips.
func boards(b *build.Build) []Supply {
	var list []Supply
	for _, name := range distinct(b.Boards, boardName) {
		var areas []pattern.Amount
		s := Supply{Kind: BoardSupply, Name: name, Unit: "boards"}
		for _, d := range b.Boards {
			if boardName(d) != name {
				continue
			}
			area := d.Cut().Area().M2() * float64(d.Quantity)
			areas = append(areas, pattern.Amount{Value: area, Unit: "m²", Working: figure.Figure{Name: string(d.ID) + " " + d.Name, Text: fmt.Sprintf("%.2f m²", area), Formula: "number × area of the board",
				With: fmt.Sprintf("%d × %.3f m² (%.0f × %.0f mm)", d.Quantity, d.Cut().Area().M2(), d.Width.Mm(), d.Height.Mm())}})
			s.Buy += d.Quantity
			s.covers(d.Part, string(d.ID))
		}
		s.Amount = total("boards of "+name, areas, "m²", 2)
		list = append(list, s)
	}
	return append(list, clips(b)...)
}

func boardName(d build.Board) string { return fmt.Sprintf("%s %.1f mm", d.Material, d.Thickness.Mm()) }

// clips is the clips of all boards.
func clips(b *build.Build) []Supply {
	s := Supply{Kind: ClipSupply, Name: "for boards", Unit: "clips"}
	var counts []pattern.Amount
	for _, d := range b.Boards {
		if d.ClipPitch == 0 {
			continue
		}
		ring := d.Cut().Polygon().Outer
		edge := pattern.Line(append(slices.Clone(ring), ring[0])).Length()
		a, err := pattern.ClipCount(pattern.Given{Value: edge, Source: figure.Measured, Note: "round the board"}, pattern.Given{Value: d.ClipPitch.Mm(), Source: figure.Decided}, true)
		if err != nil {
			continue
		}
		a.Value *= float64(d.Quantity)
		a.Working.Text = fmt.Sprintf("%.0f", a.Value)
		a.Working.With += fmt.Sprintf("; on %d boards %.0f", d.Quantity, a.Value)
		counts = append(counts, named(a, string(d.ID)+" "+d.Name))
		s.Buy += int(a.Value)
		s.covers(d.ClipPart, string(d.ID))
	}
	if len(counts) == 0 {
		return nil
	}
	s.Amount = total("clips", counts, "", 0)
	return []Supply{s}
}

// deadening is the sound deadening by mass, with what it weighs. Its parts
// count in m².
func deadening(b *build.Build) []Supply {
	if len(b.Deadening) == 0 {
		return nil
	}
	s := Supply{Kind: DeadenerSupply, Name: "on panels", Unit: "m²"}
	var areas, masses []pattern.Amount
	for _, d := range b.Deadening {
		name := string(d.ID) + " " + d.Name
		areas = append(areas, pattern.Amount{Value: d.Area.M2(), Unit: "m²", Working: figure.Figure{Name: name, Text: fmt.Sprintf("%.2f m²", d.Area.M2()), Formula: "as measured", With: fmt.Sprintf("%d panels", len(d.Panels))}})
		if m, err := pattern.Deadener(pattern.Given{Value: d.Area.M2(), Source: figure.Measured}, pattern.Given{Value: d.Mass, Source: figure.Sheet}, pattern.Given{}); err == nil {
			masses = append(masses, named(m, name))
		}
		s.covers(d.Part, string(d.ID))
	}
	s.Amount = total("sound deadening", areas, "m²", 2)
	mass := total("mass of the sound deadening", masses, "kg", 1).Working
	s.Mass, s.Buy = &mass, int(math.Ceil(s.Amount.Value-1e-9))
	for _, id := range s.Parts {
		s.Have += b.Part(id).Quantity
	}
	return []Supply{s}
}

// glues is the adhesive of each product, by face.
func glues(b *build.Build) []Supply {
	var list []Supply
	for _, product := range distinct(b.Glues, func(g build.Glue) string { return g.Product }) {
		s := Supply{Kind: GlueSupply, Name: product, Unit: "l"}
		if product == "" {
			s.Name = "contact adhesive"
		}
		var joints []pattern.Amount
		for _, g := range b.Glues {
			if g.Product != product {
				continue
			}
			job := pattern.Glue{Area: pattern.Given{Value: g.Area.M2(), Source: figure.Measured}, Faces: pattern.Given{Value: float64(g.Faces), Source: figure.Decided}}
			if g.Spread > 0 {
				job.Yield = pattern.Given{Value: g.Spread, Source: figure.Sheet}
			}
			if a, err := job.Adhesive(); err == nil {
				joints = append(joints, named(a, string(g.ID)+" "+g.Name))
			}
			s.covers(g.Part, string(g.ID))
		}
		s.Amount = total("adhesive, "+s.Name, joints, "l", 2)
		s.Buy = int(math.Ceil(s.Amount.Value - 1e-9))
		list = append(list, s)
	}
	return list
}

// distinct are the different values of a list, in its order.
func distinct[T any](list []T, of func(T) string) []string {
	var out []string
	for _, x := range list {
		if v := of(x); !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	return out
}
