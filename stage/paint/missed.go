package paint

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/unit"
)

// Lost is what missed windows cost: the coats anew, and scuffing.
type Lost struct {
	Coats  []build.RedoCoats
	Panels []build.PanelID
	Zones  []build.ZoneID
	Litres unit.Volume
	Hours  unit.Effort
	Figure figure.Figure
}

// MissedOn returns what it costs when windows close: for each the area of its
// surfaces × the sheet's hours of scuffing, and the coats of the product anew,
// with litres and booth hours.
func MissedOn(b *build.Build, windows []Window) Lost {
	var l Lost
	l.Figure = figure.Figure{Name: "a missed window", Formula: "area × scuffing + coats anew × (area ÷ m² an hour + flash), for each product", Caution: takeoff.Spraying}
	for i, w := range windows {
		p := *b.Product(w.Coat.Product)
		area := w.Area
		n := takeoff.NeedOf(p, area, p.Missed.Coats, p.Purge, rates.Default())
		booth, f := takeoff.Coating(p, area, p.Missed.Coats)
		scuff := unit.Hours(area.M2() * p.Missed.Scuff)
		if p.Missed.Coats == 0 {
			n.Volume, booth = 0, 0
		} else {
			l.Coats = append(l.Coats, build.RedoCoats{Product: p.ID, Coats: p.Missed.Coats})
		}
		l.Litres, l.Hours = l.Litres+n.Volume, l.Hours+scuff+booth
		l.Panels, l.Zones = union(l.Panels, w.Panels), union(l.Zones, w.Zones)
		if i > 0 {
			l.Figure.With += "; "
		}
		l.Figure.With += fmt.Sprintf("%s: %s × %g h + %s", p.Name, area, p.Missed.Scuff, f.With)
		l.Figure.Inputs = append(append(l.Figure.Inputs, f.Inputs...), figure.Input{Name: "paint anew", Value: n.Volume.String(), Source: figure.Worked, Note: n.Figure.With})
	}
	l.Figure.Text = fmt.Sprintf("%s, %s", l.Litres, l.Hours)
	return l
}

// Redo returns the paint again that a loss asks for, as a fact to be kept: its
// hours in a trade, part of a task.
func (l Lost) Redo(id build.RedoID, task build.TaskID, trade build.TradeID, why string) build.Redo {
	return build.Redo{ID: id, Panels: l.Panels, Zones: l.Zones, Why: why, Coats: l.Coats, Task: task,
		Work: []build.Leg{{Trade: trade, Hours: l.Hours}}}
}
