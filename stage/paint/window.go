package paint

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/engine/coat"
	"fettle/figure"
	"fettle/takeoff"
	"fettle/unit"
)

// Window is how long what is on may wait for what comes next.
type Window struct {
	Coat   build.Coat // the last of its product on these surfaces
	Panels []build.PanelID
	Zones  []build.ZoneID
	Area   unit.Area         // of those zones of those panels on which nothing came after
	Next   []build.ProductID // that close it
	Opens  unit.Moment       // 0 where it is out of the range that times can be scaled in
	Closes unit.Moment
	State  coat.State
	Left   int // minutes until it opens, or closes
}

// Windows returns the recoat windows that run or have closed at a moment: those
// of last coats over which something is still to go. Times are moved to the
// metal's temperature; cold never makes a window longer than the sheet says.
func Windows(b *build.Build, now unit.Moment) []Window {
	var list []Window
	for _, c := range b.Coats {
		if c.At > now {
			continue
		}
		w := Window{Coat: c}
		for _, zone := range c.Zones {
			next := Next(b, zone, c.Product)
			if len(next) == 0 {
				continue
			}
			waiting := waitingPanels(b, c, zone, now)
			if len(waiting) == 0 && !lastOffPanels(b, c, zone, now) {
				continue
			}
			w.Panels, w.Zones, w.Next = union(w.Panels, waiting), append(w.Zones, zone), union(w.Next, next)
			w.Area += b.SurfaceOf(build.Product{}, waiting, []build.ZoneID{zone})
		}
		if len(w.Zones) > 0 && w.clock(*b.Product(c.Product), now) {
			list = append(list, w)
		}
	}
	return list
}

// waitingPanels returns the panels of a coat on whose zone nothing came after it.
func waitingPanels(b *build.Build, c build.Coat, zone build.ZoneID, now unit.Moment) []build.PanelID {
	var list []build.PanelID
	for _, id := range c.Panels {
		coats := b.CoatsOn(id, zone)
		coats = slices.DeleteFunc(coats, func(o build.Coat) bool { return o.At > now })
		if len(coats) > 0 && coats[len(coats)-1].ID == c.ID {
			list = append(list, id)
		}
	}
	return list
}

// lastOffPanels is the same of a zone that none of the coat's panels has.
func lastOffPanels(b *build.Build, c build.Coat, zone build.ZoneID, now unit.Moment) bool {
	if slices.ContainsFunc(c.Panels, func(id build.PanelID) bool { return b.Panel(id).Has(zone) }) {
		return false
	}
	return !slices.ContainsFunc(b.Coats, func(o build.Coat) bool {
		return o.ID != c.ID && o.At >= c.At && o.At <= now && slices.Contains(o.Zones, zone)
	})
}

func union[T comparable](list, more []T) []T {
	for _, x := range more {
		if !slices.Contains(list, x) {
			list = append(list, x)
		}
	}
	return list
}

// clock sets when the window opens and closes; false where it never closes.
func (w *Window) clock(p build.Product, now unit.Moment) bool {
	rule := Recoat(p)
	closes, err := rule.Latest(w.Coat.At, w.Coat.Metal)
	if err != nil || closes == 0 {
		return false
	}
	w.Closes = closes
	run := coat.Window{To: closes}
	if full, err := rule.Window(w.Coat.At, w.Coat.Metal); err == nil {
		w.Opens, run = full.From, full
	}
	w.State, w.Left = run.At(now)
	return true
}

// ClosedChecks finds windows that have closed although it costs coats anew.
func ClosedChecks(b *build.Build, now unit.Moment) []takeoff.Check {
	var checks []takeoff.Check
	for _, w := range Windows(b, now) {
		p := b.Product(w.Coat.Product)
		if w.State != coat.Closed || p.Missed.Coats == 0 {
			continue
		}
		lost := MissedOn(b, []Window{w})
		checks = append(checks, takeoff.Check{
			ID: "window/" + string(w.Coat.ID), Weight: takeoff.Lost,
			Says: fmt.Sprintf("%s over %s had to be on by %s on %s", names(b, w.Next), p.Name, w.Closes.Clock(), w.Closes.Date().Short()),
			Do:   fmt.Sprintf("%s: %s of %s, about %s", p.Missed.Words, lost.Litres, p.Name, halfHours(lost.Hours)),
			Figure: figure.Figure{Name: "recoat window", Text: w.Closes.Clock(), Formula: "last coat + the sheet's window, never longer for cold",
				With:   fmt.Sprintf("%s + %d min = %s", w.Coat.At.Clock(), p.Times.RecoatTo, w.Closes.Clock()),
				Inputs: append([]figure.Input{{Name: "window", Value: fmt.Sprintf("%d min", p.Times.RecoatTo), Source: figure.Sheet, Note: p.Sheet}}, lost.Figure.Inputs...), Caution: takeoff.Spraying},
		})
	}
	return checks
}
