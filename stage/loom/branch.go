package loom

import (
	"fmt"
	"math"
	"strings"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/engine/loom/bench"
	"fettle/engine/loom/route"
	"fettle/figure"
	"fettle/takeoff"
)

// branched gives the cut list the lengths of the route, and a row to each branch
// of a circuit that is spliced. What is not drawn keeps the length of the list.
func branched(b *build.Build, cuts []Cut, led route.Result, ways route.Problem) []Cut {
	var list []Cut
	for _, c := range cuts {
		found := false
		for i, x := range led.Wires {
			if circuitOfWire(x.ID) != c.Circuit || len(x.Steps) == 0 {
				continue
			}
			one := c
			one.ID, one.CutMM, one.Routed, one.Working = x.ID, x.Cut, true, x.Working
			if w := ways.Wires[i]; len(ways.Splices) > 0 {
				one.ends(b, w, x.ID != c.Circuit)
			}
			if one.Branch = x.ID != c.Circuit; one.Branch {
				one.StatedMM = 0
			}
			one.Label = one.text(b.Loom.Settings.Code, labelOf(b, c, x.ID))
			list, found = append(list, one), true
		}
		if !found {
			list = append(list, c)
		}
	}
	return list
}

// ends names the splice at one end of a branch, and the place at the other.
func (c *Cut) ends(b *build.Build, w route.Wire, branch bool) {
	name := func(e route.End) string {
		if at := b.Loom.Waypoint(build.WaypointID(e.Node)); at != nil && at.Name != "" {
			return at.Name
		}
		return e.Node
	}
	if strings.HasPrefix(w.To.Node, splicePrefix) {
		c.To = w.To.Node
	}
	if branch {
		c.From, c.To = w.From.Node, name(w.To)
	}
}

func circuitOfWire(id string) string {
	circuit, _, _ := strings.Cut(id, ".")
	return circuit
}

// labelOf is what is printed on a branch: the circuit's own label with the
// branch's number.
func labelOf(b *build.Build, c Cut, id string) string {
	if one := b.Circuit(c.Circuit); one != nil && one.Label != "" {
		return one.Label + strings.TrimPrefix(id, c.Circuit)
	}
	return id
}

// longest is the longest way along the route from the first end of a run, or 0
// where it is not drawn.
func longest(led *route.Result, id string) float64 {
	if led == nil {
		return 0
	}
	trunk, most := 0.0, 0.0
	for _, x := range led.Wires {
		switch {
		case x.ID == id:
			trunk = x.Along
		case circuitOfWire(x.ID) == id:
			most = math.Max(most, x.Along)
		}
	}
	return trunk + most
}

// HoleRow is a hole as it is, beside what passes it.
type HoleRow struct {
	build.Hole
	PanelName string        `json:"panel_name"`
	Bundle    float64       `json:"bundle_mm"` // 0 where nothing passes
	Wires     int           `json:"wires"`
	Fits      bool          `json:"fits"`
	Working   figure.Figure `json:"working"`
}

func holesOf(b *build.Build, led *route.Result) []HoleRow {
	var list []HoleRow
	for _, h := range b.Loom.Holes {
		row := HoleRow{Hole: h, Fits: true}
		if p := b.Panel(h.Panel); p != nil {
			row.PanelName = p.Name
		}
		if led != nil {
			for _, x := range led.Holes {
				if x.ID == string(h.At) {
					row.Bundle, row.Wires, row.Fits, row.Working = x.Bundle, x.Wires, x.Fits, x.Working
				}
			}
		}
		list = append(list, row)
	}
	return list
}

// dropOf is the voltage lost on a run, with its working.
func dropOf(one loom.Sized) figure.Figure {
	return figure.Figure{Name: "drop of " + one.ID, Text: fmt.Sprintf("%.2f V", one.DropV), Formula: "amps × ohms of the run, one way, at its temperature; no more than its limit",
		With: one.Working.With, Inputs: one.Working.Inputs, Caution: one.Working.Caution}
}

// sleeves is the sleeve by diameter, where a route is drawn.
func sleeves(b *build.Build, led *route.Result) []Need {
	if led == nil || coverOf(b.Loom.Settings.Sleeve) != route.Sleeve {
		return nil
	}
	metres, terms := map[int]float64{}, map[int][]string{}
	largest := 0
	for _, x := range led.Runs {
		if len(x.Wires) > 1 {
			d := int(math.Ceil(x.Packed/2)) * 2
			metres[d] += x.Length / 1000
			terms[d] = append(terms[d], fmt.Sprintf("%s %.2f", x.ID, x.Length/1000))
			largest = max(largest, d)
		}
	}
	var list []Need
	for d := 2; d <= largest; d += 2 {
		if metres[d] == 0 {
			continue
		}
		with := metres[d] * (1 + bench.Spare)
		list = append(list, Need{Kind: "sleeve", Name: fmt.Sprintf("%s, %d mm", b.Loom.Settings.Sleeve, d), Unit: "m", Amount: with, Working: figure.Figure{
			Name: fmt.Sprintf("%s %d mm", b.Loom.Settings.Sleeve, d), Text: fmt.Sprintf("%.1f m", with), Formula: "stretches with more than one wire, by packed diameter rounded up to 2 mm, + 5 %", With: strings.Join(terms[d], " + ") + fmt.Sprintf(" = %.1f m × 1.05", metres[d])}})
	}
	return list
}

// routeChecks is what the route says is wrong, and where it is so much longer
// than the list that the section would no longer do.
func (s *solved) routeChecks() []takeoff.Check {
	if s.led == nil {
		return nil
	}
	var list []takeoff.Check
	for _, f := range s.led.Findings {
		list = append(list, takeoff.Check{ID: "loom/route/" + strings.ReplaceAll(f.Rule, " ", "-") + "/" + f.Where, Weight: takeoff.Tight, Link: "loom/route", Says: f.Where + ": " + f.Text, Do: f.Hint,
			Figure: figure.Figure{Name: f.Rule, Text: f.Where, Formula: "found on the route as drawn", With: f.Text}})
	}
	for i, run := range s.p.Runs() {
		one, listed := s.r.Runs[i], run.LengthM*1000
		led := longest(s.led, run.ID)
		if c := s.b.Circuit(run.ID); c != nil && led > 1.1*listed && one.DropV*led/listed > one.DropMaxV {
			list = append(list, takeoff.Check{ID: "loom/longer/" + run.ID, Weight: takeoff.Slipping, Link: "loom/circuit/" + run.ID, Do: "take the length of the route over into the list, or lead it another way",
				Says:   fmt.Sprintf("circuit %s, %s, is %.1f m along the route and %.1f m by the list: its section would no longer do", run.ID, c.Name, led/1000, listed/1000),
				Figure: figure.Figure{Name: "drop along the route", Text: fmt.Sprintf("%.2f V", one.DropV*led/listed), Formula: "drop by the list × length by the route ÷ length by the list", With: fmt.Sprintf("%.2f V × %.2f ÷ %.2f, at most %.2f V", one.DropV, led/1000, listed/1000, one.DropMaxV)}})
		}
	}
	return list
}
