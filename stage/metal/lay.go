package metal

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"

	"fettle/build"
	"fettle/engine/nest"
	"fettle/engine/nest/longlay"
	"fettle/fault"
	"fettle/unit"
)

// Order is all that a cut plan of sheet metal follows from. It is the input of
// the work Lay as JSON.
type Order struct {
	Gauge  unit.Length   `json:"gauge_mm"`
	Seed   uint64        `json:"seed"`
	Steps  int           `json:"steps"` // budget, of engine/nest
	Blanks []build.Blank `json:"blanks"`
	Sheets []build.Sheet `json:"sheets"` // of the gauge
}

// OrderOf gathers what a cut plan of a gauge is made from. It is a fault where
// no blank or no sheet is of the gauge.
func OrderOf(b *build.Build, gauge unit.Length, seed uint64, steps int) (Order, error) {
	o := Order{Gauge: gauge, Seed: seed, Steps: steps, Blanks: Wanted(b, gauge)}
	for _, s := range b.Sheets {
		if s.Gauge == gauge {
			o.Sheets = append(o.Sheets, s)
		}
	}
	if len(o.Blanks) == 0 {
		return o, fault.New(fault.Invalid, "no blank of %.1f mm is wanted", gauge.Mm())
	}
	_, err := rackOf(o.Sheets, gauge)
	return o, err
}

// Copies is how many blanks are to be laid.
func (o Order) Copies() int {
	n := 0
	for _, b := range o.Blanks {
		n += b.Left()
	}
	return n
}

// Bytes is the order as JSON.
func (o Order) Bytes() []byte {
	data, _ := json.Marshal(o) // numbers, words and lists of them: it cannot fail
	return data
}

// Laid is a cut plan that was worked out, the best so far or the last.
type Laid struct {
	Plan    build.SheetPlan     `json:"plan"`
	Bought  []build.BlankPlaced `json:"on_sheets_to_buy,omitempty"` // those without a place on the rack
	Missing []string            `json:"missing,omitempty"`          // blanks without a place on the rack, by name
	Steps   int                 `json:"steps"`
	Budget  int                 `json:"budget"`
	Seed    uint64              `json:"seed"`
	Resumed []int               `json:"resumed_at_steps,omitempty"` // where it was cut off and went on from its best
	Whole   bool                `json:"plan_is_whole,omitempty"`    // what is left to try is to use offcuts first
	Done    bool                `json:"done"`
	Gap     float64             `json:"smallest_gap_mm,omitempty"`
}

// Read reads what Lay reported or returned.
func Read(data []byte) (Laid, error) {
	var l Laid
	err := json.Unmarshal(data, &l)
	return l, fault.Wrap(fault.Internal, err, "read a cut plan")
}

// Tell says how far a cut plan is that Lay reported or returned.
func Tell(best []byte) (done, of int, figure string) {
	l, err := Read(best)
	if err != nil {
		return 0, 0, ""
	}
	figure = fmt.Sprintf("%d laid, %d without a place", len(l.Plan.Placed), len(l.Missing))
	if n := len(l.Resumed); n > 0 {
		figure += fmt.Sprintf("; cut off at %d steps, gone on from its best", l.Resumed[n-1])
	}
	return l.Steps, l.Budget, figure
}

// LayKind and LayVersion name the work Lay to a queue of jobs. The version goes
// up when the same order would be laid otherwise.
const (
	LayKind    = "sheets"
	LayVersion = 1
)

// Lay is the work of a job: it reads an Order, lays its blanks on the sheets
// and offcuts on the rack, reports the best so far as JSON of a Laid, and
// returns the last. Cut off, it goes on from what it reported last with what is
// left of the budget. What it returns has passed the exact checker.
func Lay(ctx context.Context, input, from []byte, report func([]byte)) ([]byte, error) {
	var o Order
	if err := json.Unmarshal(input, &o); err != nil {
		return nil, fault.Wrap(fault.Invalid, err, "read the order of a cut plan")
	}
	var earlier *Laid
	if len(from) > 0 {
		l, err := Read(from)
		if err != nil {
			return nil, err
		}
		earlier = &l
	}
	write := func(l Laid) []byte {
		data, _ := json.Marshal(l) // numbers, words and lists of them: it cannot fail
		return data
	}
	l, err := o.Lay(ctx, earlier, func(l Laid) { report(write(l)) })
	if err != nil {
		return nil, err
	}
	return write(l), nil
}

// Shares of the budget: half of it finds the plan that begins least of whole
// sheets; half of the rest fills the offcuts, and what is left lays the others
// about that.
const wholeShare = 2

// Lay works the order out.
func (o Order) Lay(ctx context.Context, earlier *Laid, tell func(Laid)) (Laid, error) {
	h, err := o.hunt()
	if err != nil {
		return Laid{}, err
	}
	if earlier != nil {
		h.list, h.spent, h.whole = h.placements(*earlier), earlier.Steps, earlier.Whole
		h.resumed = append(earlier.Resumed, earlier.Steps)
	}
	told := func() { tell(h.laid()) }
	if !h.whole {
		budget := o.Steps
		if h.offcuts() {
			budget = max(o.Steps/wholeShare, h.spent)
		}
		if err := h.lay(ctx, budget, told); err != nil {
			return Laid{}, err
		}
	}
	if h.whole = ctx.Err() == nil; h.whole && h.offcuts() && h.cost(h.list) > 0 {
		if err := h.offcutsFirst(ctx, told); err != nil {
			return Laid{}, err
		}
	}
	return h.finish()
}

// hunt is the search of one order.
type hunt struct {
	Order
	rack    rack
	problem nest.Problem
	list    []nest.Placement // the best
	spent   int
	resumed []int
	whole   bool
	reason  string
}

func (o Order) hunt() (*hunt, error) {
	r, err := rackOf(o.Sheets, o.Gauge)
	if err != nil {
		return nil, err
	}
	p, err := problem(r, o.Blanks)
	return &hunt{Order: o, rack: r, problem: p}, err
}

func (h *hunt) offcuts() bool {
	return slices.ContainsFunc(h.rack.Sheets, func(s build.Sheet) bool { return s.Offcut })
}

// lay finds the plan that begins least of whole sheets.
func (h *hunt) lay(ctx context.Context, budget int, told func()) error {
	w := longlay.Work{Problem: h.problem, Seed: h.Seed, Steps: budget, Done: h.spent, From: h.list}
	r, err := longlay.Do(ctx, w, func(best []nest.Placement, steps int) {
		h.list, h.spent = best, steps
		told()
	})
	if err != nil {
		return err
	}
	h.list, h.spent, h.reason = r.Placements, r.Steps, r.Reason
	return nil
}

// finish is the last word, once the exact checker has passed it.
func (h *hunt) finish() (Laid, error) {
	l := h.laid()
	check, err := nest.CheckPart(h.problem, h.list)
	if err != nil {
		return l, fault.Wrap(fault.Internal, err, "the engine handed out a layout that its checker refuses")
	}
	l.Done, l.Gap = true, finite(check.SmallestGap)
	switch {
	case l.Plan.Buy > 0:
		l.Plan.Note = fmt.Sprintf("The sheets on the rack do not take every blank; %d more like %s would.", l.Plan.Buy, l.Plan.Like)
	case len(l.Missing) > 0:
		l.Plan.Note = "Not every blank has a place: " + h.reason
	}
	return l, nil
}

// laid turns the best into facts.
func (h *hunt) laid() Laid {
	l := Laid{Plan: build.SheetPlan{Gauge: h.Gauge}, Steps: h.spent, Budget: h.Steps, Seed: h.Seed, Resumed: h.resumed, Whole: h.whole}
	on := map[[2]int]bool{}
	for _, at := range h.list {
		p := build.BlankPlaced{Blank: h.Blanks[at.Piece].ID, Copy: at.Copy, Nth: at.Sheet, X: at.X, Y: at.Y, Rotation: at.Rotation}
		if at.Container == len(h.rack.Sheets) {
			p.Sheet = h.rack.Like.ID
			l.Bought = append(l.Bought, p)
			l.Plan.Buy, l.Plan.Like = max(l.Plan.Buy, at.Sheet+1), p.Sheet
			continue
		}
		p.Sheet = h.rack.Sheets[at.Container].ID
		on[[2]int{at.Piece, at.Copy}] = true
		l.Plan.Placed = append(l.Plan.Placed, p)
	}
	for i, one := range h.Blanks {
		for k := range one.Left() {
			if !on[[2]int{i, k}] {
				l.Missing = append(l.Missing, fmt.Sprintf("%s %s", one.ID, one.Name))
			}
		}
	}
	return l
}

// placements turns facts into a layout of the engine; what is no longer there
// is left out.
func (h *hunt) placements(l Laid) []nest.Placement {
	var list []nest.Placement
	add := func(all []build.BlankPlaced, bought bool) {
		for _, at := range all {
			piece := slices.IndexFunc(h.Blanks, func(b build.Blank) bool { return b.ID == at.Blank })
			on := len(h.rack.Sheets)
			if !bought {
				on = slices.IndexFunc(h.rack.Sheets, func(s build.Sheet) bool { return s.ID == at.Sheet })
			}
			if piece >= 0 && on >= 0 {
				list = append(list, nest.Placement{Piece: piece, Copy: at.Copy, Container: on, Sheet: at.Nth, X: at.X, Y: at.Y, Rotation: at.Rotation})
			}
		}
	}
	add(l.Plan.Placed, false)
	add(l.Bought, true)
	return list
}
