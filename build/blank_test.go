package build_test

import "fettle/build"

func aBlank() build.Blank {
	return build.Blank{ID: "B1", Name: "sill patch", Finding: "F01", Gauge: mm, Width: 120 * mm, Height: 70 * mm, Quantity: 2, Over: 12 * mm}
}

func actsOnBlanks() []act {
	plan := build.SheetPlan{Gauge: mm, Placed: []build.BlankPlaced{{Blank: "B0", Sheet: "M1", X: 10, Y: 10}, {Blank: "B0", Copy: 1, Sheet: "M1", Nth: 1, X: 10, Y: 10}}}
	return []act{
		{&build.SetBlanks{Blanks: []build.Blank{aBlank()}}, "Blank B1: 2 × sill patch, 120 × 70 mm of 1.0 mm", func(b *build.Build) any { return line(len(b.Blanks), b.Gauges()) }, "2 [1 mm]"},
		{&build.SetBlanks{Blanks: []build.Blank{with(aBlank(), func(p *build.Blank) { p.ID = "B0" }), aBlank()}}, "2 blanks", func(b *build.Build) any { return line(len(b.Blanks), b.Blank("B0").Quantity) }, "2 2"},
		{&build.DropBlank{Blank: "B0"}, "Blank B0 is not needed", func(b *build.Build) any { return line(len(b.Blanks), len(b.SheetPlan(mm).Placed)) }, "0 0"},
		{&build.SetSheet{Sheet: build.Sheet{ID: "M2", Name: "offcut", Gauge: mm, Width: 400 * mm, Height: 300 * mm, Quantity: 1, Offcut: true}}, "Sheet M2: 1 × offcut, 400 × 300 mm of 1.0 mm", func(b *build.Build) any { return line(len(b.Sheets), b.Sheet("M2").Offcut) }, "2 true"},
		{&build.CutSheet{Sheet: "M1", Left: []build.Sheet{{ID: "M5", Name: "left of M1", Gauge: mm, Width: 300 * mm, Height: 200 * mm, Quantity: 1, Offcut: true}}}, "Sheet M1 is cut: 1 blank; M5 is kept of it, 300 × 200 mm", func(b *build.Build) any {
			return line(b.Blank("B0").Left(), b.Sheet("M1").Quantity, len(b.SheetPlan(mm).Placed), b.Sheet("M5").Offcut)
		}, "1 1 0 true"},
		{&build.KeepSheetPlan{Plan: plan}, "Cut plan of 1.0 mm sheet: 2 blanks on 2 sheets", func(b *build.Build) any { return line(len(b.SheetPlans), len(b.SheetPlan(mm).Placed)) }, "1 2"},
	}
}

func noesOnBlanks() []no {
	blank := func(f func(*build.Blank)) build.Change {
		return &build.SetBlanks{Blanks: []build.Blank{with(aBlank(), f)}}
	}
	sheet := func(f func(*build.Sheet)) build.Change {
		return &build.SetSheet{Sheet: with(build.Sheet{ID: "M1", Name: "plain", Gauge: mm, Width: mm, Height: mm, Quantity: 2}, f)}
	}
	plan := func(f func(*build.BlankPlaced)) build.Change {
		return &build.KeepSheetPlan{Plan: build.SheetPlan{Gauge: mm, Placed: []build.BlankPlaced{with(build.BlankPlaced{Blank: "B0", Sheet: "M1"}, f)}}}
	}
	return []no{
		{blank(func(p *build.Blank) { p.ID = "" }), 1, "blank"},
		{blank(func(p *build.Blank) { p.Name = " " }), 10, "blank B1, name"},
		{blank(func(p *build.Blank) { p.Finding = "F99" }), 2, "blank B1, finding"},
		{blank(func(p *build.Blank) { p.Gauge = 0 }), 3, "blank B1"},
		{blank(func(p *build.Blank) { p.Surface = "U99" }), 2, "blank B1, surface"},
		{blank(func(p *build.Blank) { p.Over = 200 * mm }), 3, "blank B1"},
		{blank(func(p *build.Blank) { p.Fold.Tolerance = 91 }), 3, "blank B1, fold"},
		{blank(func(p *build.Blank) { p.Shape = build.Shape{Outer: build.Ring{{0, 0}, {mm, 0}}} }), 13, "blank B1, shape"},
		{&build.SetBlanks{}, 10, "blanks"},
		{&build.DropBlank{Blank: "B9"}, 2, ""},
		{sheet(func(s *build.Sheet) { s.ID = "" }), 1, "sheet"},
		{sheet(func(s *build.Sheet) { s.Part = "Q99" }), 2, "sheet M1, part"},
		{sheet(func(s *build.Sheet) { s.Quantity = 0 }), 3, "sheet plan of 1.0 mm, line 1"},
		{plan(func(p *build.BlankPlaced) { p.Blank = "B9" }), 2, "sheet plan of 1.0 mm, line 1"},
		{plan(func(p *build.BlankPlaced) { p.Sheet = "M9" }), 2, "sheet plan of 1.0 mm, line 1"},
		{plan(func(p *build.BlankPlaced) { p.Copy = 2 }), 3, "sheet plan of 1.0 mm, line 1"},
		{plan(func(p *build.BlankPlaced) { p.Nth = 2 }), 3, "sheet plan of 1.0 mm, line 1"},
		{plan(func(p *build.BlankPlaced) { p.X = 1e9 }), 3, "sheet plan of 1.0 mm, line 1"},
		{&build.CutSheet{Sheet: "M9"}, 2, ""},
		{&build.CutSheet{Sheet: "M1", Nth: 5}, 9, "sheet M1"},
		{&build.CutSheet{Sheet: "M1", Left: []build.Sheet{{ID: "M1", Gauge: mm, Offcut: true}}}, 9, "sheet M1, left, line 1"},
		{blank(func(p *build.Blank) { p.Done = 3 }), 3, "blank B1"},
		{&build.KeepSheetPlan{Plan: build.SheetPlan{Gauge: mm, Like: "M9"}}, 2, "sheet plan of 1.0 mm, buy_like"},
		{&build.KeepSheetPlan{Plan: build.SheetPlan{Gauge: 2 * mm, Placed: []build.BlankPlaced{{Blank: "B0", Sheet: "M1"}}}}, 9, "sheet plan of 2.0 mm, line 1"},
	}
}
