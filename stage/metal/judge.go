package metal

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/nest"
	"fettle/fault"
)

// Verdict is what the exact checker says of a kept cut plan.
type Verdict struct {
	Faults []string // each with the blank it is about
	Gap    float64  // smallest of those without a fault, mm; 0 where there is none
}

// Judge holds a cut plan to the blanks and sheets as they are now: a blank may
// have been entered anew since. Of two that overlap the later one has the fault.
func Judge(b *build.Build, plan build.SheetPlan) (Verdict, error) {
	var v Verdict
	var blanks []build.Blank
	for _, one := range b.Blanks {
		if one.Gauge == plan.Gauge && one.Left() > 0 {
			blanks = append(blanks, one)
		}
	}
	if len(plan.Placed) == 0 {
		return v, nil
	}
	rack, err := rackOf(b.Sheets, plan.Gauge)
	if err != nil {
		return v, err
	}
	p, err := problem(rack, blanks)
	if err != nil {
		return v, err
	}
	var list []nest.Placement
	for _, at := range plan.Placed {
		list = append(list, nest.Placement{
			Piece:     slices.IndexFunc(blanks, func(o build.Blank) bool { return o.ID == at.Blank }),
			Container: slices.IndexFunc(rack.Sheets, func(o build.Sheet) bool { return o.ID == at.Sheet }),
			Copy:      at.Copy, Sheet: at.Nth, X: at.X, Y: at.Y, Rotation: at.Rotation,
		})
	}
	faults, report := nest.CheckEach(p, list)
	for i, err := range faults {
		if err != nil {
			v.Faults = append(v.Faults, fmt.Sprintf("%s, copy %d: %s", plan.Placed[i].Blank, plan.Placed[i].Copy+1, says(err)))
		}
	}
	v.Gap = finite(report.SmallestGap)
	return v, nil
}

// says is a fault of the checker as a sentence.
func says(err error) string {
	if f, ok := errors.AsType[*fault.Fault](err); ok {
		return f.Msg
	}
	return err.Error()
}

// finite is 0 where nothing lies beside anything.
func finite(gap float64) float64 {
	if math.IsInf(gap, 1) {
		return 0
	}
	return gap
}
