package metal

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/takeoff"
)

// OrderName is what a sheet like one on the rack is called on the list of
// Stores.
func OrderName(like build.Sheet) string {
	return fmt.Sprintf("sheet metal %.1f mm, %.0f × %.0f mm, as sheet %s", like.Gauge.Mm(), like.Width.Mm(), like.Height.Mm(), like.ID)
}

// Short is how many sheets a kept cut plan lacks beside those that are on the
// list of Stores and not in yet.
func Short(b *build.Build, plan build.SheetPlan) int {
	like := b.Sheet(plan.Like)
	if like == nil {
		return 0
	}
	n := plan.Buy
	for _, p := range b.Parts {
		if p.Name == OrderName(*like) && p.State != build.In && p.State != build.SentBack {
			n -= p.Quantity - p.Received
		}
	}
	return max(n, 0)
}

// lacking says which cut plans ask for sheets that nobody has ordered.
func lacking(b *build.Build) []takeoff.Check {
	var checks []takeoff.Check
	for _, plan := range b.SheetPlans {
		n := Short(b, plan)
		if n == 0 {
			continue
		}
		gauge := fmt.Sprintf("%.1f mm", plan.Gauge.Mm())
		checks = append(checks, takeoff.Check{ID: "sheets/" + gauge, Weight: takeoff.Slipping, Link: "metal/sheets",
			Says: fmt.Sprintf("the sheets of %s on the rack do not take every blank: %d more like %s would", gauge, n, plan.Like),
			Do:   "put them on the list of Stores, or find an offcut",
			Figure: figure.Figure{Name: "sheets to buy", Text: fmt.Sprint(n), Formula: "sheets of that size that the blanks without a place on the rack take, less those on the list of Stores",
				With:   fmt.Sprintf("%d − %d = %d", plan.Buy, plan.Buy-n, n),
				Inputs: []figure.Input{{Name: "the cut plan", Value: fmt.Sprintf("%d more like %s", plan.Buy, plan.Like), Source: figure.Worked, Note: plan.Note}}}})
	}
	return checks
}
