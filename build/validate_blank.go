package build

import (
	"fmt"

	"fettle/unit"
)

// Bounds of rule 3 for sheet metal.
const (
	mostGauge = 10 * unit.Millimetre
	mostOver  = 100 * unit.Millimetre
	mostCut   = 10_000 * unit.Millimetre
)

// checkSheets holds blanks, sheets and their plans to the rules.
func (b *Build) checkSheets() error {
	for _, p := range b.Blanks {
		if err := b.checkBlank(p); err != nil {
			return err
		}
	}
	for _, s := range b.Sheets {
		if err := b.checkSheetMetal(s); err != nil {
			return err
		}
	}
	for _, p := range b.SheetPlans {
		if err := b.checkSheetPlan(p); err != nil {
			return err
		}
	}
	return nil
}

func (b *Build) checkBlank(p Blank) error {
	where := "blank " + string(p.ID)
	if p.ID == "" {
		return rule(ruleID, "the ID is missing").At("blank")
	}
	if p.Finding != "" && b.Finding(p.Finding) == nil {
		return at(missing("finding", p.Finding), where+", finding")
	}
	if err := first(needText(p.Name, where+", name"), inRange(p.Gauge, 1, mostGauge, "gauge", where),
		inRange(p.Width, 1, mostCut, "width", where), inRange(p.Height, 1, mostCut, "height", where),
		inRange(p.Quantity, 1, mostCount, "quantity", where), inRange(p.Over, 0, mostOver, "over", where), inRange(p.Done, 0, p.Quantity, "what is cut", where),
		within(p.Fold.Angle, -mostAngle, mostAngle, "angle", where+", fold"), within(p.Fold.Tolerance, 0, 90, "tolerance", where+", fold")); err != nil {
		return err
	}
	if p.Surface != "" {
		if b.Surface(p.Surface) == nil {
			return at(missing("surface", p.Surface), where+", surface")
		}
		if err := p.Scan.check(where + ", scan"); err != nil {
			return err
		}
	}
	if err := p.Profile.check(p.Gauge, where+", profile"); err != nil {
		return err
	}
	if p.Shape.Drawn() {
		return p.Shape.check(where + ", shape")
	}
	return nil
}

func (b *Build) checkSheetMetal(s Sheet) error {
	where := "sheet " + string(s.ID)
	if s.ID == "" {
		return rule(ruleID, "the ID is missing").At("sheet")
	}
	if s.Part != "" && b.Part(s.Part) == nil {
		return at(missing("part", s.Part), where+", part")
	}
	if err := first(needText(s.Name, where+", name"), inRange(s.Gauge, 1, mostGauge, "gauge", where),
		inRange(s.Width, 1, mostCut, "width", where), inRange(s.Height, 1, mostCut, "height", where),
		inRange(s.Quantity, 0, mostCount, "quantity", where)); err != nil {
		return err
	}
	if s.Shape.Drawn() {
		return s.Shape.check(where + ", shape")
	}
	return nil
}

// checkSheetPlan holds a kept plan to the rules of names and numbers. Whether
// the blanks lie free of each other is worked out from it.
func (b *Build) checkSheetPlan(plan SheetPlan) error {
	where := "sheet plan of " + gaugeWords(plan.Gauge)
	type copyOf struct {
		blank BlankID
		copy  int
	}
	seen := map[copyOf]bool{}
	if plan.Like != "" && b.Sheet(plan.Like) == nil {
		return at(missing("sheet", plan.Like), where+", buy_like")
	}
	if err := inRange(plan.Buy, 0, mostCount, "sheets to buy", where); err != nil {
		return err
	}
	for i, p := range plan.Placed {
		at := fmt.Sprintf("%s, line %d", where, i+1)
		if err := b.checkBlankPlaced(plan, p, at); err != nil {
			return err
		}
		if key := (copyOf{p.Blank, p.Copy}); seen[key] {
			return rule(ruleID, "copy %d of blank %s lies twice", p.Copy, p.Blank).At(at)
		} else {
			seen[key] = true
		}
	}
	return nil
}

func (b *Build) checkBlankPlaced(plan SheetPlan, p BlankPlaced, where string) error {
	blank, sheet := b.Blank(p.Blank), b.Sheet(p.Sheet)
	switch {
	case blank == nil:
		return at(missing("blank", p.Blank), where)
	case sheet == nil:
		return at(missing("sheet", p.Sheet), where)
	case blank.Gauge != plan.Gauge || sheet.Gauge != plan.Gauge:
		return rule(ruleOrder, "blank %s is of %s, sheet %s of %s", p.Blank, gaugeWords(blank.Gauge), p.Sheet, gaugeWords(sheet.Gauge)).At(where)
	case p.Copy < 0 || p.Copy >= blank.Left():
		return rule(ruleRange, "blank %s has no copy %d still to be cut", p.Blank, p.Copy).At(where)
	case p.Nth < 0 || p.Nth >= sheet.Quantity:
		return rule(ruleRange, "there is no sheet %s number %d", p.Sheet, p.Nth+1).At(where)
	}
	far := mostCut.Mm()
	return first(within(p.X, -far, far, "x", where), within(p.Y, -far, far, "y", where), within(p.Rotation, -mostAngle, mostAngle, "angle", where))
}
