package metal

import (
	"fmt"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/metal"
	"fettle/unit"
)

// cutSheetDone says that a sheet of the kept plan is cut; what is left of it is
// kept as an offcut where that was ticked.
func (p place) cutSheetDone(r *web.Request) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	sheet := s.Build.Sheet(build.SheetID(f.Raw("sheet")))
	nth := int(f.Int("nth", 0, 1000))
	if err := f.Err(); err != nil {
		return err
	}
	if sheet == nil {
		return fault.New(fault.NotFound, "there is no sheet %q", f.Raw("sheet"))
	}
	plan := s.Build.SheetPlan(sheet.Gauge)
	if plan == nil {
		return fault.New(fault.NotFound, "no cut plan of %s is kept", gaugeOf(sheet.Gauge))
	}
	c := &build.CutSheet{Sheet: sheet.ID, Nth: nth}
	if f.Has("keep") {
		left, ok, err := stage.Left(s.Build, *plan, *sheet, nth)
		if err != nil {
			return err
		}
		if ok {
			left.ID = build.SheetID(sheetsPage{scene: s}.nextSheet())
			c.Left = []build.Sheet{left}
		}
	}
	return p.desk.Propose(r, s.At()+"/sheets", c)
}

// orderSheets lays the sheets that a cut plan lacks on the slip, as a part for
// Stores.
func (p place) orderSheets(r *web.Request) error {
	return p.sheetForm(r, func(s scene, f *web.Form) build.Change {
		c := &build.AddPart{Part: build.Part{ID: s.Build.NextPart(), Quantity: int(f.Int("buy-count", 1, 99)), Price: unit.Money(f.Decimal("buy-price", 2, 0, 1_000_000_00)),
			Lead: int(f.Int("buy-lead", 0, 500)), Supplier: f.Text("buy-supplier", 0, 80)}}
		if ids := field.Values(metalTasks(s.Build)); len(ids) > 0 {
			c.Part.Task = build.TaskID(f.Choice("buy-task", ids...))
		}
		if like := s.Build.Sheet(build.SheetID(f.Raw("buy-like"))); like != nil {
			c.Part.Name = stage.OrderName(*like)
		} else {
			f.Fail("buy-count", "there is no such sheet any more: lay the blanks out anew")
		}
		return c
	})
}

// sheetLead is how many working days sheet metal takes to come, as judged until
// somebody has asked.
const sheetLead = 5

// priceOf is what a sheet cost when it was last ordered, and how long it took;
// zero and the usual where it is not known.
func priceOf(b *build.Build, like build.SheetID) (price string, lead int) {
	price, lead = "0", sheetLead
	if s := b.Sheet(like); s != nil {
		if p := b.Part(s.Part); p != nil {
			return fmt.Sprintf("%.2f", float64(p.Price)/100), p.Lead
		}
	}
	return price, lead
}

// metalTasks are the open tasks of metal that sheets can be needed for, the
// first picked.
func metalTasks(b *build.Build) []field.Option {
	var list []field.Option
	for _, t := range b.Tasks {
		if t.Stage == "metal" && t.State != build.Finished {
			list = append(list, field.Option{Value: string(t.ID), Label: string(t.ID) + " " + t.Name, Picked: len(list) == 0})
		}
	}
	return list
}
