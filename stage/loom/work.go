package loom

import (
	"context"
	"slices"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/engine/loom/board"
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
	Splices    []board.SpliceRow `json:"splices,omitempty"` // along the route
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
	w, err := solve(ctx, b)
	if err != nil {
		return Sheet{}, err
	}
	r := w.r
	s := Sheet{Fuses: r.Fuses, Boxes: r.Boxes, Flaws: r.Flaws, Charge: r.Charge, Night: r.Night, Reserve: r.Reserve, Rules: r.Rules, Cautions: r.Cautions, Problem: w.p, Sections: map[string]string{},
		Cuts: w.cuts, Route: w.led, Ways: w.ways, Holes: holesOf(b, w.led)}
	if w.led != nil {
		s.Cautions = slices.Concat(s.Cautions, w.led.Cautions)
		s.Splices = board.Splices(*w.led)
	}
	s.Rows = w.rows(w.inFull(ctx))
	for _, row := range s.Rows {
		s.Sections[row.ID] = row.Section
	}
	s.Needs = w.needs()
	s.Labels, s.Cavities = LabelsOf(s.Cuts), Cavities(b, s.Cuts)
	s.Continuity, s.FirstPower = w.continuity(), firstPower(ctx, b, w.p, r)
	s.Checks = w.checks(s.Needs)
	return s, nil
}

// rows puts sections beside the facts they are of, with what the full rules
// would choose where others are kept to.
func (s *solved) rows(full []loom.Sized) []Row {
	var list []Row
	for i, run := range s.p.Runs() {
		row := Row{Sized: s.r.Runs[i], Circuit: s.b.Circuit(run.ID), StatedMM: run.LengthM * 1000, RoutedMM: longest(s.led, run.ID), Drop: dropOf(s.r.Runs[i])}
		if row.Circuit != nil {
			row.StatedMM = row.Circuit.Length.Mm()
		}
		if full != nil {
			row.Working.Inputs = append(slices.Clone(row.Working.Inputs), figure.Input{Name: "by the full rules", Value: inFullWords(full[i]), Source: figure.Worked, Note: full[i].Working.With})
		}
		var c Cut
		c.colour(run.Colour)
		row.AU7, row.IEC, row.Words = c.AU7, c.IEC, c.Words
		list = append(list, row)
	}
	return list
}
