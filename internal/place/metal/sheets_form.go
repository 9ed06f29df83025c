package metal

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/geom"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/metal"
	"fettle/unit"
)

// The most a blank or a sheet measures, in µm.
const (
	mostSheet = 10_000_000
	mostGauge = 10_000
)

// setBlank lays a typed blank on the slip.
func (p place) setBlank(r *web.Request) error {
	return p.sheetForm(r, func(s scene, f *web.Form) build.Change {
		one := build.Blank{ID: build.BlankID(strings.ToUpper(f.Text("blank-id", 1, 12))), Name: f.Text("blank-name", 1, 80), Quantity: int(f.Int("blank-quantity", 1, 1000)),
			Gauge: unit.Length(f.Decimal("blank-gauge", 3, 100, mostGauge)), Width: unit.Length(f.Decimal("blank-width", 3, 1000, mostSheet)),
			Height: unit.Length(f.Decimal("blank-height", 3, 1000, mostSheet)), Over: unit.Length(f.Decimal("blank-over", 3, 0, 100_000))}
		if old := s.Build.Blank(one.ID); old != nil {
			one.Finding, one.Done = old.Finding, old.Done
			if old.Width == one.Width && old.Height == one.Height && old.Gauge == one.Gauge {
				one.Shape, one.Profile = old.Shape, old.Profile // a size that is typed anew is that of a plain rectangle
			}
		}
		if f.Has("blank-folded") {
			one.Fold = build.Axis{Tolerance: stage.FoldTolerance}
		}
		return &build.SetBlanks{Blanks: []build.Blank{one}}
	})
}

// setSheet lays a typed sheet or offcut on the slip.
func (p place) setSheet(r *web.Request) error {
	return p.sheetForm(r, func(s scene, f *web.Form) build.Change {
		one := build.Sheet{ID: build.SheetID(strings.ToUpper(f.Text("sheet-id", 1, 12))), Name: f.Text("sheet-name", 1, 80), Quantity: int(f.Int("sheet-quantity", 0, 1000)),
			Gauge: unit.Length(f.Decimal("sheet-gauge", 3, 100, mostGauge)), Width: unit.Length(f.Decimal("sheet-width", 3, 1000, mostSheet)),
			Height: unit.Length(f.Decimal("sheet-height", 3, 1000, mostSheet)), Offcut: f.Has("sheet-offcut")}
		if old := s.Build.Sheet(one.ID); old != nil {
			one.Part, one.Shape = old.Part, old.Shape
		}
		return &build.SetSheet{Sheet: one}
	})
}

// sheetForm reads a form of the page and lays the change on the slip, or shows
// the page again with what is wrong.
func (p place) sheetForm(r *web.Request, read func(scene, *web.Form) build.Change) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	change := read(s, f)
	desk.Holds(f, s.Build, strings.TrimPrefix(change.Kind(), "set-")+"-id", change)
	if f.Err() == nil {
		return p.desk.Propose(r, s.At()+"/sheets", change)
	}
	page, err := s.sheetsPage()
	if err != nil {
		return err
	}
	page.Wrong, page.typed = f.Errors, f.Raw
	return r.Invalid(web.Sheet{Place: "metal", Shown: "blanks and sheets"}, showSheets(page))
}

// was is what a field had when its form was sent, or what it begins with.
func (p sheetsPage) was(name, begin string) string {
	if p.typed != nil {
		return p.typed(name)
	}
	return begin
}

func (s scene) blankTable() table.Table {
	t := table.Table{ID: "blanks", Caption: fmt.Sprintf("%d blanks", len(s.Build.Blanks)), Self: s.At() + "/sheets",
		Empty: "No blanks yet. Take over what the findings call for, or enter one below.",
		Columns: []table.Column{{Head: "No."}, {Head: "Blank", Wide: true}, {Head: "Gauge", Unit: "mm", Number: true}, {Head: "Fitted size", Unit: "mm"},
			{Head: "Cut to", Unit: "mm"}, {Head: "Copies", Number: true}, {Head: "Mends"}, {Head: "Fold"}}}
	for _, b := range s.Build.Blanks {
		mends := table.Text("")
		if b.Finding != "" {
			mends = table.Link(string(b.Finding), s.At()+"/finding/"+string(b.Finding))
		}
		fold := ""
		if b.Fold.Known() {
			fold = "across the rolling"
		}
		page := s.blankPath(b.ID)
		if b.Profile.Folded() {
			page, fold = s.foldPath(b.ID), fmt.Sprintf("%d bends, across the rolling", len(b.Profile.Bends()))
		}
		t.Rows = append(t.Rows, table.Row{ID: string(b.ID), Cells: []table.Cell{table.Link(string(b.ID), page), table.Text(b.Name), table.Text(mm(b.Gauge)),
			table.Text(mm(b.Width) + " × " + mm(b.Height)), table.Text(stage.CutSize(b)), table.Text(copiesWord(b)), mends, table.Text(fold)}})
	}
	return t
}

func (s scene) rackTable() table.Table {
	t := table.Table{ID: "rack", Caption: "On the rack", Self: s.At() + "/sheets", Empty: "No sheet metal on the rack yet. Enter a sheet or an offcut below.",
		Columns: []table.Column{{Head: "No."}, {Head: "Sheet", Wide: true}, {Head: "Gauge", Unit: "mm", Number: true}, {Head: "Size", Unit: "mm"}, {Head: "There are", Number: true}, {Head: "Ordered as"}}}
	for _, one := range s.Build.Sheets {
		part := table.Text("")
		if one.Part != "" {
			part = table.Link(string(one.Part), s.Base+"/part/"+string(one.Part))
		}
		name := one.Name
		if one.Offcut {
			name += " (offcut)"
		}
		t.Rows = append(t.Rows, table.Row{ID: string(one.ID), Cells: []table.Cell{table.Text(string(one.ID)), table.Text(name), table.Text(mm(one.Gauge)),
			table.Text(mm(one.Width) + " × " + mm(one.Height)), table.Text(fmt.Sprint(one.Quantity)), part}})
	}
	return t
}

// path is a polygon as SVG has it, y down.
func path(p geom.Polygon) string {
	var out strings.Builder
	for _, ring := range p.Rings() {
		for i, q := range ring {
			word := "L"
			if i == 0 {
				word = "M"
			}
			fmt.Fprintf(&out, "%s%.1f %.1f", word, q.X, -q.Y)
		}
		out.WriteString("Z")
	}
	return out.String()
}

func (c cutSheet) viewBox() string { return viewOf(c.Outline) }

// viewOf is the view of a drawing with some air about it.
func viewOf(p geom.Polygon) string {
	b := p.Bounds()
	return fmt.Sprintf("%.0f %.0f %.0f %.0f", b.Min.X-10, -b.Max.Y-10, b.Width()+20, b.Height()+20)
}

// words names the sheet of a plan.
func (c cutSheet) words() string {
	text := fmt.Sprintf("%s %s, %s × %s mm", c.Sheet.ID, c.Sheet.Name, mm(c.Sheet.Width), mm(c.Sheet.Height))
	if c.Sheet.Quantity > 1 {
		text += fmt.Sprintf(", no. %d", c.Nth+1)
	}
	return text
}

// middle is where the number of a blank stands.
func (c cutOut) middle() (x, y string) {
	b := c.Shape.Bounds()
	return fmt.Sprintf("%.1f", (b.Min.X+b.Max.X)/2), fmt.Sprintf("%.1f", -(b.Min.Y+b.Max.Y)/2)
}

// copiesWord is how many copies are wanted, and of them cut.
func copiesWord(b build.Blank) string {
	switch {
	case b.Left() == 0:
		return fmt.Sprintf("%d, all cut", b.Quantity)
	case b.Done > 0:
		return fmt.Sprintf("%d, %d of them cut", b.Quantity, b.Done)
	}
	return fmt.Sprint(b.Quantity)
}

// blankKey says what the two lines of a drawing are.
func blankKey(b build.Blank) string {
	if b.Over == 0 {
		return "The shape is cut as it is fitted."
	}
	return fmt.Sprintf("Inner line: as it is fitted. Outer line: as it is cut, %s mm over on every side, to be scribed in place and trimmed.", mm(b.Over))
}

func cutSize(b build.Blank) string { return stage.CutSize(b) }

func (p sheetsPage) nextBlank() string {
	return desk.NextID("B%02d", len(p.Build.Blanks), func(id string) bool { return p.Build.Blank(build.BlankID(id)) != nil })
}

func (p sheetsPage) nextSheet() string {
	return desk.NextID("M%d", len(p.Build.Sheets), func(id string) bool { return p.Build.Sheet(build.SheetID(id)) != nil })
}
