package metal

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/figure"
	"fettle/geom"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/metal"
	"fettle/unit"
)

func (p place) sheetRoutes() []web.Route {
	at := "/b/{build}/metal/sheets"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.sheets},
		{Pattern: "POST " + at + "/take", Who: web.Crew, Handle: p.takeBlanks},
		{Pattern: "POST " + at + "/lay", Who: web.Crew, Handle: p.laySheets},
		{Pattern: "POST " + at + "/cut", Who: web.Crew, Handle: p.cutSheetDone},
		{Pattern: "POST " + at + "/buy", Who: web.Crew, Handle: p.orderSheets},
		{Pattern: "GET " + at + "/work/{key}", Who: web.Guest, Handle: p.sheetWork},
		{Pattern: "POST " + at + "/work/{key}/keep", Who: web.Crew, Handle: p.keepSheetWork},
		{Pattern: "POST " + at + "/blank", Who: web.Crew, Handle: p.setBlank},
		{Pattern: "POST " + at + "/drop", Who: web.Crew, Handle: p.dropBlank},
		{Pattern: "POST " + at + "/sheet", Who: web.Crew, Handle: p.setSheet},
	}
}

// sheetsPage is all that is cut from sheet metal, gauge by gauge.
type sheetsPage struct {
	scene
	Proposed []build.Blank
	Gauges   []gaugePart
	Blanks   table.Table
	Rack     table.Table
	Wrong    field.Errors
	typed    func(string) string // of the form that was sent; nil where none was
}

// gaugePart is the cut plan of one gauge.
type gaugePart struct {
	Gauge  unit.Length
	Wanted int // copies
	Laid   int
	Sheets bool   // some of the gauge are on the rack
	Note   string // of the plan
	Faults []string
	Cuts   []cutSheet
	Short  int           // sheets to buy that are not on the list of Stores
	Like   build.SheetID // of what size
}

// cutSheet is one sheet with what is cut from it.
type cutSheet struct {
	Sheet   build.Sheet
	Nth     int
	Outline geom.Polygon
	Cuts    []cutOut
	Left    build.Sheet // an offcut worth keeping once it is cut; empty where there is none
	laid    float64     // mm² of blanks
}

// cutOut is a blank as it lies on a sheet.
type cutOut struct {
	Blank  build.Blank
	Number int // in the order of cutting
	Shape  geom.Polygon
}

func (s scene) sheetsPage() (sheetsPage, error) {
	page := sheetsPage{scene: s, Proposed: stage.Proposed(s.Build), Blanks: s.blankTable(), Rack: s.rackTable()}
	for _, g := range s.Build.Gauges() {
		part := gaugePart{Gauge: g, Sheets: slices.ContainsFunc(s.Build.Sheets, func(o build.Sheet) bool { return o.Gauge == g && o.Quantity > 0 })}
		for _, b := range stage.Wanted(s.Build, g) {
			part.Wanted += b.Left()
		}
		if plan := s.Build.SheetPlan(g); plan != nil {
			part.Laid, part.Note = len(plan.Placed), plan.Note
			part.Short, part.Like = stage.Short(s.Build, *plan), plan.Like
			verdict, err := stage.Judge(s.Build, *plan)
			if err != nil {
				return page, err
			}
			part.Faults = verdict.Faults
			cuts, err := cutSheets(s.Build, *plan)
			if err != nil {
				return page, err
			}
			part.Cuts = cuts
		}
		page.Gauges = append(page.Gauges, part)
	}
	return page, nil
}

// cutSheets draws a plan sheet by sheet, in the order of the rack.
func cutSheets(b *build.Build, plan build.SheetPlan) ([]cutSheet, error) {
	var list []cutSheet
	for _, sheet := range b.Sheets {
		for nth := range sheet.Quantity {
			one := cutSheet{Sheet: sheet, Nth: nth, Outline: sheet.Cut().Polygon()}
			for _, at := range plan.Placed {
				blank := b.Blank(at.Blank)
				if at.Sheet != sheet.ID || at.Nth != nth || blank == nil {
					continue
				}
				shape, err := stage.Lies(*blank, at)
				if err != nil {
					return nil, err
				}
				one.Cuts = append(one.Cuts, cutOut{Blank: *blank, Number: len(one.Cuts) + 1, Shape: shape})
				one.laid += shape.Area()
			}
			if len(one.Cuts) == 0 {
				continue
			}
			left, _, err := stage.Left(b, plan, sheet, nth)
			if err != nil {
				return nil, err
			}
			one.Left = left
			list = append(list, one)
		}
	}
	return list, nil
}

func (p place) sheets(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page, err := s.sheetsPage()
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		return r.CSV("blanks.csv", page.Blanks.Records())
	case "json":
		return r.JSON(map[string]any{"blanks": s.Build.Blanks, "sheets": s.Build.Sheets, "plans": s.Build.SheetPlans, "proposed": page.Proposed})
	case "paper":
		return r.Page(web.Sheet{Place: "metal", Shown: "cut sheet"}, sheetsPaper(page))
	}
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: "blanks and sheets"}, showSheets(page))
}

// takeBlanks lays the blanks that findings call for on the slip.
func (p place) takeBlanks(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	list := stage.Proposed(s.Build)
	if len(list) == 0 {
		return fault.New(fault.Invalid, "no finding calls for a blank that is not on the list")
	}
	return p.desk.Propose(r, s.At()+"/sheets", &build.SetBlanks{Blanks: list})
}

func (p place) dropBlank(r *web.Request) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	return p.desk.Propose(r, s.At()+"/sheets", &build.DropBlank{Blank: build.BlankID(f.Raw("blank"))})
}

func gaugeOf(g unit.Length) string { return fmt.Sprintf("%.1f mm", g.Mm()) }

// fill is how much of the sheet is cut up.
func (c cutSheet) fill() figure.Figure {
	laid, all := c.laid/1e6, c.Outline.Area()/1e6
	return figure.Figure{Name: "cut from sheet " + string(c.Sheet.ID), Text: fmt.Sprintf("%.0f %%", 100*laid/all), Formula: "cut sizes of the blanks on it ÷ the sheet",
		With: fmt.Sprintf("%.3f m² ÷ %.3f m² = %.1f %%", laid, all, 100*laid/all)}
}

// listed names things in a sentence.
func listed(names []string) string { return strings.Join(names, ", ") }

// blanksWord counts blanks.
func blanksWord(n int) string {
	if n == 1 {
		return "1 blank"
	}
	return fmt.Sprintf("%d blanks", n)
}
