package loom

import (
	"context"
	"slices"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/engine/loom/route"
	"fettle/figure"
	"fettle/takeoff"
)

// Sheet is the whole loom worked out: what the Loom place shows and prints.
type Sheet struct {
	Rows       []Row             `json:"rows"` // circuits, then wires of the net
	Fuses      []loom.FuseLoad   `json:"fuses"`
	Boxes      []loom.BoxUse     `json:"boxes,omitempty"`
	Flaws      []loom.Flaw       `json:"flaws"`
	Charge     *loom.Charge      `json:"charge,omitempty"`
	Night      *figure.Figure    `json:"night,omitempty"`
	Reserve    []figure.Figure   `json:"reserve,omitempty"`
	Rules      loom.Rules        `json:"rules"`
	Checks     []takeoff.Check   `json:"checks"`
	Needs      []Need            `json:"needs"`
	Cuts       []Cut             `json:"cuts"`
	Labels     []Label           `json:"labels"`
	Cavities   []Cavity          `json:"cavities"`
	Continuity []Continuity      `json:"continuity"`
	FirstPower []PowerStep       `json:"first_power"`
	Route      *route.Result     `json:"route,omitempty"`
	Ways       *route.Problem    `json:"route_problem,omitempty"`
	Holes      []HoleRow         `json:"holes,omitempty"`
	Cautions   []string          `json:"cautions"`
	Problem    loom.Problem      `json:"-"`
	Sections   map[string]string `json:"-"` // by run, for loom.Operate
}

// Row is a circuit or wire with its section, the rule that decided it, and its
// length by the list beside that of the route.
type Row struct {
	loom.Sized
	Circuit  *build.Circuit `json:"circuit,omitempty"`
	AU7      string         `json:"bs_au7,omitempty"`
	IEC      string         `json:"iec_60757,omitempty"`
	Words    string         `json:"colour"`
	StatedMM float64        `json:"stated_mm"`
	RoutedMM float64        `json:"routed_mm,omitempty"` // the longest way from its first end, where it is drawn
	Drop     figure.Figure  `json:"drop"`
}

// Work works the loom out, its route included where one is drawn. A loom that
// is faulty in form is an error with its place.
func Work(ctx context.Context, b *build.Build) (Sheet, error) {
	p := ProblemOf(b)
	r, err := loom.Solve(ctx, p, loom.Options{})
	if err != nil {
		return Sheet{}, err
	}
	s := Sheet{Fuses: r.Fuses, Boxes: r.Boxes, Flaws: r.Flaws, Charge: r.Charge, Night: r.Night, Reserve: r.Reserve, Rules: r.Rules, Cautions: r.Cautions, Problem: p, Sections: map[string]string{}}
	s.Cuts = cutsOf(b, p, r)
	var unled []takeoff.Check
	if ways, ok := RouteOf(b, p, r); ok {
		led, err := route.Solve(ctx, ways, route.Options{})
		if err != nil {
			unled = append(unled, unrouted(err))
		} else {
			s.Route, s.Ways = &led, &ways
			s.Cuts = branched(b, s.Cuts, led, ways)
			s.Cautions = slices.Concat(s.Cautions, led.Cautions)
		}
	}
	s.Holes = holesOf(b, s.Route)
	known := sizesOf(p, r)
	sortCuts(s.Cuts, known)
	for i, c := range s.Cuts {
		s.Cuts[i].Outside = outside(known[c.Section])
	}
	s.Rows = rowsOf(b, p, r, s.Route)
	for _, row := range s.Rows {
		s.Sections[row.ID] = row.Section
	}
	s.Needs = slices.Concat(needsOf(b, p, r, s.Cuts), sleeves(b, s.Route))
	s.Labels, s.Cavities = LabelsOf(s.Cuts), Cavities(b, s.Cuts)
	s.Continuity, s.FirstPower = continuityOf(b, known, s.Cuts), firstPower(ctx, b, p, r)
	s.Checks = slices.Concat(checks(b, p, r, s.Needs), routeChecks(s.Route, s.Rows), unled)
	return s, nil
}

// rowsOf puts sections beside the facts they are of.
func rowsOf(b *build.Build, p loom.Problem, r loom.Result, led *route.Result) []Row {
	var list []Row
	for i, run := range runsOf(p) {
		row := Row{Sized: r.Runs[i], Circuit: b.Circuit(run.ID), StatedMM: run.LengthM * 1000, RoutedMM: longest(led, run.ID), Drop: dropOf(r.Runs[i])}
		var c Cut
		c.colour(run.Colour)
		row.AU7, row.IEC, row.Words = c.AU7, c.IEC, c.Words
		list = append(list, row)
	}
	return list
}
