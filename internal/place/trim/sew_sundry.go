package trim

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/facts"
	"fettle/internal/shapein"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/unit"
)

// squareMetres reads an area in m².
func squareMetres(f *web.Form, name string) unit.Area {
	return unit.Area(f.Decimal(name, 3, 1, 1_000_000)) * 1000
}

func areaText(a unit.Area) string { return numberText(a.M2()) }

func foamNoun() noun {
	return noun{Key: "foam", One: "a foam", Many: "Foam", Letter: "F", Says: "Foam is bought by kind, density and size. Density is its life, firmness its feel.",
		Columns: []table.Column{{Head: "Name", Wide: true}, {Head: "Kind"}, {Head: "Blocks", Number: true}, {Head: "Size", Unit: "mm"}, {Head: "Density", Unit: "kg/m³", Number: true}, {Head: "Covered by", Wide: true}, {Head: "Part"}},
		List: func(b *build.Build) []facts.Row {
			var rows []facts.Row
			for _, m := range b.Foams {
				rows = append(rows, facts.Row{ID: string(m.ID), Cells: []table.Cell{table.Text(m.Name), table.Text(m.Kind), table.Text(strconv.Itoa(m.Quantity)), table.Text(sizes(m.Width.Mm(), m.Height.Mm(), m.Thickness.Mm())), table.Text(numberText(m.Density)), table.Text(joinNames(m.Pieces)), table.Text(string(m.Part))}})
			}
			return rows
		},
		Form: func(s sheet, id string) []field.Ask {
			m := build.Foam{Quantity: 1}
			if old := s.Build.Foam(build.FoamID(id)); old != nil {
				m = *old
			}
			return append([]field.Ask{
				{Params: field.Params{Name: "name", Label: "What it is", Value: m.Name}},
				{Params: field.Params{Name: "kind", Label: "Kind", Hint: "as the supplier calls it", Value: m.Kind}},
				{Params: field.Params{Name: "density", Label: "Density", Value: numberText(m.Density), Unit: "kg/m³", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "ild", Label: "Firmness", Hint: "force on 50 in² at a quarter pressed in; empty: not known", Value: numberText(m.ILD), Unit: "lbf", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "where", Label: "Where it lies", Value: m.Where}}}, append(block(m.Width, m.Height, m.Thickness, m.Quantity), s.usedBy(m.Pieces, m.Part)...)...)
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			m := build.Foam{ID: build.FoamID(id), Name: f.Text("name", 1, 120), Kind: f.Text("kind", 1, 60), Density: float64(f.Decimal("density", 1, 10, 10_000)) / 10, ILD: maybeNumber(f, "ild", 0, 1000), Where: f.Text("where", 0, 120), Pieces: namesIn[build.PieceID](f, "pieces"), Part: s.readPart(f, "part")}
			m.Width, m.Height, m.Thickness, m.Quantity = readBlock(f)
			return &build.SetFoam{Foam: m}
		}}
}

func block(w, h, t unit.Length, quantity int) []field.Ask {
	return []field.Ask{
		{Params: field.Params{Name: "width", Label: "Width", Value: sizeText(w), Unit: "mm", Mode: "decimal", Short: true}},
		{Params: field.Params{Name: "height", Label: "Height", Value: sizeText(h), Unit: "mm", Mode: "decimal", Short: true}},
		{Params: field.Params{Name: "thickness", Label: "Thickness", Value: sizeText(t), Unit: "mm", Mode: "decimal", Short: true}},
		{Params: field.Params{Name: "quantity", Label: "How many", Value: strconv.Itoa(quantity), Mode: "numeric", Short: true}}}
}

func readBlock(f *web.Form) (w, h, t unit.Length, quantity int) {
	return length(f, "width", 1, 20_000), length(f, "height", 1, 20_000), length(f, "thickness", 0, 1000), int(f.Int("quantity", 1, 1000))
}

// usedBy are the fields that say which pieces go over it and which part of the
// list covers it.
func (s sheet) usedBy(pieces []build.PieceID, part build.PartID) []field.Ask {
	return []field.Ask{{Params: field.Params{Name: "pieces", Label: "Pieces that cover it", Hint: "their numbers", Value: joinNames(pieces)}}, s.partInput("part", "Part of the list that covers it", part)}
}

func (s sheet) partInput(name, label string, picked build.PartID) field.Ask {
	return field.Ask{Params: field.Params{Name: name, Label: label}, Pick: s.partPick(picked)}
}

func (s sheet) readPart(f *web.Form, name string) build.PartID {
	return build.PartID(f.Choice(name, field.Values(s.partPick(""))...))
}

func boardNoun() noun {
	return noun{Key: "board", One: "a board", Many: "Boards", Letter: "D", Says: "A board is what a covering is glued on: a door card, a headliner board. Its clips are counted round its edge.",
		Columns: []table.Column{{Head: "Name", Wide: true}, {Head: "Material"}, {Head: "How many", Number: true}, {Head: "Size", Unit: "mm"}, {Head: "Clips every", Unit: "mm", Number: true}, {Head: "Covered by", Wide: true}, {Head: "Part"}},
		List: func(b *build.Build) []facts.Row {
			var rows []facts.Row
			for _, m := range b.Boards {
				rows = append(rows, facts.Row{ID: string(m.ID), Cells: []table.Cell{table.Text(m.Name), table.Text(m.Material), table.Text(strconv.Itoa(m.Quantity)), table.Text(sizes(m.Width.Mm(), m.Height.Mm(), m.Thickness.Mm())), table.Text(sizeText(m.ClipPitch)), table.Text(joinNames(m.Pieces)), table.Text(string(m.Part))}})
			}
			return rows
		}, Form: boardForm,
		Read: func(f *web.Form, s sheet, id string) build.Change {
			m := build.Board{ID: build.BoardID(id), Name: f.Text("name", 1, 120), Material: f.Text("material", 1, 60), ClipPitch: maybe(f, "clip-pitch", 10, 2000), Pieces: namesIn[build.PieceID](f, "pieces"), Part: s.readPart(f, "part"), ClipPart: s.readPart(f, "clips")}
			m.Width, m.Height, m.Thickness, m.Quantity = readBlock(f)
			m.Shape = shapein.Drawn(f, "shape", "", 1)
			return &build.SetBoard{Board: m}
		}}
}

func boardForm(s sheet, id string) []field.Ask {
	m := build.Board{Quantity: 1}
	if old := s.Build.Board(build.BoardID(id)); old != nil {
		m = *old
	}
	shape := ""
	if m.Shape.Drawn() {
		shape = shapein.Corners(m.Shape)
	}
	list := append([]field.Ask{{Params: field.Params{Name: "name", Label: "What it is", Value: m.Name}}, {Params: field.Params{Name: "material", Label: "Of", Hint: "such as hardboard, ply", Value: m.Material}}}, block(m.Width, m.Height, m.Thickness, m.Quantity)...)
	list = append(list, field.Ask{Params: field.Params{Name: "clip-pitch", Label: "Clips every", Hint: "round its edge, at most; empty: no clips", Value: sizeText(m.ClipPitch), Unit: "mm", Mode: "decimal", Short: true}}, s.partInput("clips", "Part that covers the clips", m.ClipPart))
	list = append(list, s.usedBy(m.Pieces, m.Part)...)
	return append(list, field.Ask{Params: field.Params{Name: "shape", Label: "Its true shape", Hint: "x y in mm, a corner a line; empty: the rectangle", Value: shape, Rows: 4}})
}

func deadenerNoun() noun {
	return noun{Key: "deadener", One: "a deadening", Many: "Deadening", Letter: "E", Says: "Sound deadening on the inside of panels: area and weight. Its sheet says what it may be stuck on, and how warm.",
		Columns: []table.Column{{Head: "Name", Wide: true}, {Head: "Area", Unit: "m²", Number: true}, {Head: "Weight", Unit: "kg/m²", Number: true}, {Head: "Panels", Wide: true}, {Head: "Part"}},
		List: func(b *build.Build) []facts.Row {
			var rows []facts.Row
			for _, m := range b.Deadening {
				rows = append(rows, facts.Row{ID: string(m.ID), Cells: []table.Cell{table.Text(m.Name), table.Text(areaText(m.Area)), table.Text(numberText(m.Mass)), table.Text(joinNames(m.Panels)), table.Text(string(m.Part))}})
			}
			return rows
		},
		Form: func(s sheet, id string) []field.Ask {
			var m build.Deadener
			if old := s.Build.Deadener(build.DeadenerID(id)); old != nil {
				m = *old
			}
			return []field.Ask{
				{Params: field.Params{Name: "name", Label: "What it is", Value: m.Name}},
				{Params: field.Params{Name: "area", Label: "Area", Value: areaText(m.Area), Unit: "m²", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "mass", Label: "Weight", Value: numberText(m.Mass), Unit: "kg/m²", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "panels", Label: "Panels it is on", Hint: "their numbers", Value: joinNames(m.Panels)}},
				s.partInput("part", "Part of the list that covers it", m.Part)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetDeadener{Deadener: build.Deadener{ID: build.DeadenerID(id), Name: f.Text("name", 1, 120), Area: squareMetres(f, "area"), Mass: float64(f.Decimal("mass", 2, 0, 5000)) / 100, Panels: namesIn[build.PanelID](f, "panels"), Part: s.readPart(f, "part")}}
		}}
}

func glueNoun() noun {
	return noun{Key: "glue", One: "a glued joint", Many: "Glue", Letter: "G", Says: "Contact adhesive goes on both faces. Its sheet says which vinyls and foams it must not touch and how warm it may get; air the room, no flame, gloves.",
		Columns: []table.Column{{Head: "Name", Wide: true}, {Head: "Adhesive", Wide: true}, {Head: "Joint", Unit: "m²", Number: true}, {Head: "Faces", Number: true}, {Head: "Bears", Unit: "°C", Number: true}, {Head: "Pieces", Wide: true}, {Head: "Part"}},
		List: func(b *build.Build) []facts.Row {
			var rows []facts.Row
			for _, m := range b.Glues {
				rows = append(rows, facts.Row{ID: string(m.ID), Cells: []table.Cell{table.Text(m.Name), table.Text(m.Product), table.Text(areaText(m.Area)), table.Text(strconv.Itoa(m.Faces)), table.Text(numberText(m.HeatTo)), table.Text(joinNames(m.Pieces)), table.Text(string(m.Part))}})
			}
			return rows
		},
		Form: func(s sheet, id string) []field.Ask {
			m := build.Glue{Faces: 2}
			if old := s.Build.Glue(build.GlueID(id)); old != nil {
				m = *old
			}
			return append([]field.Ask{
				{Params: field.Params{Name: "name", Label: "What is glued", Value: m.Name}},
				{Params: field.Params{Name: "product", Label: "Adhesive", Hint: "as its tin says", Value: m.Product}},
				{Params: field.Params{Name: "area", Label: "Area of the joint", Value: areaText(m.Area), Unit: "m²", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "faces", Label: "Faces that are coated", Hint: "2 with contact adhesive", Value: fmt.Sprint(m.Faces), Mode: "numeric", Short: true}},
				{Params: field.Params{Name: "spread", Label: "A litre coats", Hint: "of one face, from its sheet; empty: the habit of the trade", Value: numberText(m.Spread), Unit: "m²", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "heat", Label: "Bears, by its sheet", Value: numberText(m.HeatTo), Unit: "°C", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "vinyl", Label: "On vinyl"}, Tick: field.Yes("its sheet allows soft vinyl", m.Vinyl)}}, s.usedBy(m.Pieces, m.Part)...)
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetGlue{Glue: build.Glue{ID: build.GlueID(id), Name: f.Text("name", 1, 120), Product: f.Text("product", 0, 80), Area: squareMetres(f, "area"), Faces: int(f.Int("faces", 1, 2)), Spread: maybeNumber(f, "spread", 0, 100), HeatTo: maybeNumber(f, "heat", 0, 400), Vinyl: f.Has("vinyl"), Pieces: namesIn[build.PieceID](f, "pieces"), Part: s.readPart(f, "part")}}
		}}
}

// sizes writes how large a block is.
func sizes(mm ...float64) string {
	words := make([]string, len(mm))
	for i, v := range mm {
		words[i] = strconv.FormatFloat(v, 'f', -1, 64)
	}
	return strings.Join(words, " × ")
}
