package trim

import (
	"math"
	"strconv"

	"fettle/build"
	"fettle/internal/facts"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/unit"
)

// metresText is a length in metres as its field has it.
func metresText(v unit.Length) string { return numberText(v.Mm() / 1000) }

// maybeMetres reads a length in metres that may be left empty.
func maybeMetres(f *web.Form, name string) unit.Length {
	return unit.Length(math.Round(10*maybeNumber(f, name, 0, 100_000))) * 100 * unit.Millimetre
}

func threadNoun() noun {
	return noun{Key: "thread", One: "a thread", Many: "Threads", Letter: "L", Says: "A thread by its size and what a bobbin and a spool of it hold: from it follow metres, bobbins and where a seen row would outrun one.",
		Columns: []table.Column{{Head: "Name", Wide: true}, {Head: "Tex", Number: true}, {Head: "Bobbin", Unit: "m", Number: true}, {Head: "Spool", Unit: "m", Number: true}, {Head: "Part"}},
		List: func(b *build.Build) []facts.Row {
			var rows []facts.Row
			for _, m := range b.Threads {
				rows = append(rows, facts.Row{ID: string(m.ID), Cells: []table.Cell{table.Text(m.Name), table.Text(strconv.Itoa(m.Tex)), table.Text(metresText(m.Bobbin)), table.Text(metresText(m.Spool)), table.Text(string(m.Part))}})
			}
			return rows
		},
		Form: func(s sheet, id string) []field.Ask {
			var m build.Thread
			if old := s.Build.Thread(build.ThreadID(id)); old != nil {
				m = *old
			}
			return []field.Ask{
				{Params: field.Params{Name: "name", Label: "What it is", Hint: "material and colour", Value: m.Name}},
				{Params: field.Params{Name: "tex", Label: "Tex", Hint: "grams of 1,000 m, as on its spool", Value: numberText(float64(m.Tex)), Mode: "numeric", Short: true}},
				{Params: field.Params{Name: "bobbin", Label: "A full bobbin holds", Hint: "empty: not known, bobbins are not counted", Value: metresText(m.Bobbin), Unit: "m", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "spool", Label: "A spool holds", Value: metresText(m.Spool), Unit: "m", Mode: "decimal", Short: true}},
				s.partInput("part", "Part of the list that covers it", m.Part)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetThread{Thread: build.Thread{ID: build.ThreadID(id), Name: f.Text("name", 1, 120), Tex: int(f.Int("tex", 1, 1000)), Bobbin: maybeMetres(f, "bobbin"), Spool: maybeMetres(f, "spool"), Part: s.readPart(f, "part")}}
		}}
}

func cordNoun() noun {
	return noun{Key: "cord", One: "a cord", Many: "Cords", Letter: "C", Says: "What piping is filled with. Its strip is cut once round the cord and both allowances.",
		Columns: []table.Column{{Head: "Name", Wide: true}, {Head: "Across", Unit: "mm", Number: true}, {Head: "Part"}},
		List: func(b *build.Build) []facts.Row {
			var rows []facts.Row
			for _, m := range b.Cords {
				rows = append(rows, facts.Row{ID: string(m.ID), Cells: []table.Cell{table.Text(m.Name), table.Text(sizeText(m.Diameter)), table.Text(string(m.Part))}})
			}
			return rows
		},
		Form: func(s sheet, id string) []field.Ask {
			var m build.Cord
			if old := s.Build.Cord(build.CordID(id)); old != nil {
				m = *old
			}
			return []field.Ask{{Params: field.Params{Name: "name", Label: "What it is", Value: m.Name}},
				{Params: field.Params{Name: "diameter", Label: "Across", Value: sizeText(m.Diameter), Unit: "mm", Mode: "decimal", Short: true}},
				s.partInput("part", "Part of the list that covers it", m.Part)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetCord{Cord: build.Cord{ID: build.CordID(id), Name: f.Text("name", 1, 120), Diameter: length(f, "diameter", 1, 60), Part: s.readPart(f, "part")}}
		}}
}

func coverNoun() noun {
	return noun{Key: "cover", One: "a measured material", Many: "Measured", Letter: "V", Says: "What was measured of a covering material, or of one dye lot of it: thickness, what a pleat takes up in a test piece, how far a strip of 25 × 200 mm gives and goes back.",
		Columns: []table.Column{{Head: "Material", Wide: true}, {Head: "Lot"}, {Head: "Kind"}, {Head: "Thick", Unit: "mm", Number: true}, {Head: "Pleat takes up", Unit: "mm", Number: true}, {Head: "Gives along", Unit: "%", Number: true}, {Head: "across", Unit: "%", Number: true}},
		List: func(b *build.Build) []facts.Row {
			var rows []facts.Row
			for _, m := range b.Covers {
				rows = append(rows, facts.Row{ID: string(m.ID), Cells: []table.Cell{table.Text(m.Material), table.Text(m.Lot), table.Text(m.Kind), table.Text(sizeText(m.Thickness)), table.Text(sizeText(m.Loss)), table.Text(numberText(m.Along)), table.Text(numberText(m.Across))}})
			}
			return rows
		},
		Form: func(s sheet, id string) []field.Ask {
			m := build.Cover{Kind: "leather"}
			if old := s.Build.Cover(build.CoverID(id)); old != nil {
				m = *old
			}
			return []field.Ask{
				{Params: field.Params{Name: "material", Label: "Material", Hint: "as the pieces have it", Value: m.Material}},
				{Params: field.Params{Name: "lot", Label: "Dye lot", Hint: "empty: any", Value: m.Lot, Short: true}},
				{Params: field.Params{Name: "kind", Label: "Kind"}, Pick: field.Words(build.CoverKinds(), m.Kind)},
				{Params: field.Params{Name: "thickness", Label: "Thickness", Value: sizeText(m.Thickness), Unit: "mm", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "loss", Label: "A pleat takes up", Hint: "of a test piece: flat less sewn, over its lines", Value: sizeText(m.Loss), Unit: "mm", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "over", Label: "over foam of", Value: sizeText(m.LossOver), Unit: "mm", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "along", Label: "Gives along", Value: numberText(m.Along), Unit: "%", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "across", Label: "Gives across", Value: numberText(m.Across), Unit: "%", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "squeeze", Label: "Pushed together, at most", Hint: "before it wrinkles", Value: numberText(m.Squeeze), Unit: "%", Mode: "decimal", Short: true}},
				{Params: field.Params{Name: "note", Label: "Note", Hint: "who measured it, when and how", Value: m.Note}}}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetCover{Cover: build.Cover{ID: build.CoverID(id), Material: f.Text("material", 1, 80), Lot: f.Text("lot", 0, 40), Kind: f.Choice("kind", build.CoverKinds()...), Thickness: length(f, "thickness", 0, 100), Loss: maybe(f, "loss", 0, 50), LossOver: maybe(f, "over", 0, 100),
				Along: maybeNumber(f, "along", 0, 100), Across: maybeNumber(f, "across", 0, 100), Squeeze: maybeNumber(f, "squeeze", 0, 100), Note: f.Text("note", 0, 200)}}
		}}
}
