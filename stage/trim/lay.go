package trim

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/nest"
	"fettle/engine/nest/nestfile"
	"fettle/fault"
)

// Order is all that a layout follows from: the same order gives the same
// layout. It is the input of the work Lay as JSON.
type Order struct {
	Name    string          `json:"name"`
	Seed    uint64          `json:"seed"`
	Steps   int             `json:"steps"` // budget, of engine/nest
	Problem json.RawMessage `json:"problem"`
	Hides   []build.HideID  `json:"hides"`                     // by material of the problem
	Lots    []string        `json:"lots,omitempty"`            // their dye lots
	Mixed   bool            `json:"lots_may_differ,omitempty"` // pieces of one face may come from several
	Pieces  []orderPiece    `json:"pieces"`
}

// orderPiece tells which copies of which piece the engine's are.
type orderPiece struct {
	Piece  build.PieceID `json:"piece"`
	Copies []int         `json:"copies"`
	Face   string        `json:"face,omitempty"`   // what it is seen together with
	Held   int           `json:"locked,omitempty"` // how many of the first a person has locked
}

// Order returns the input of Lay for a set. What cannot be laid out is a fault.
func (s *Set) Order(seed uint64, steps int) ([]byte, error) {
	if err := s.narrow(); err != nil {
		return nil, err
	}
	var text bytes.Buffer
	if err := nestfile.Write(&text, nestfile.File{Name: s.Material, Problem: s.problem}); err != nil {
		return nil, err
	}
	if _, err := newHunt(s); err != nil {
		return nil, err
	}
	o := Order{Name: s.Material, Seed: seed, Steps: steps, Problem: text.Bytes(), Hides: s.Hides, Lots: s.lots, Mixed: s.Mixed}
	for i, c := range s.Cuts {
		o.Pieces = append(o.Pieces, orderPiece{c.Piece.ID, s.copies[i], c.Piece.Face, s.held[i]})
	}
	data, err := json.Marshal(o)
	return data, fault.Wrap(fault.Internal, err, "write the order of a layout")
}

// Laid is a layout that Lay has found, the best so far or the last.
type Laid struct {
	Material string         `json:"material"`
	Placed   []build.Placed `json:"placed"`
	Missing  int            `json:"missing"`             // copies that found no place
	Length   float64        `json:"length_mm,omitempty"` // of a roll
	Steps    int            `json:"steps"`
	Budget   int            `json:"budget"`
	Seed     uint64         `json:"seed"`
	Resumed  []int          `json:"resumed_at_steps,omitempty"` // where it was cut off and went on from its best; then seed and steps alone do not give it again
	Done     bool           `json:"done"`
	Lots     []string       `json:"seen_of_lots,omitempty"` // the dye lots that what is seen is cut from
	Mixed    bool           `json:"lots_may_differ,omitempty"`
	Tries    []Try          `json:"tries,omitempty"` // that are over, where hides are of several lots
	Found    int            `json:"found_in_try,omitempty"`
	Verified bool           `json:"verified"` // by the exact checker
	Gap      float64        `json:"smallest_gap_mm,omitempty"`
	Status   string         `json:"status,omitempty"`
}

// Read reads what Lay reported or returned.
func Read(data []byte) (Laid, error) {
	var l Laid
	err := json.Unmarshal(data, &l)
	return l, fault.Wrap(fault.Internal, err, "read a layout")
}

// Tell says how far a layout is that Lay reported or returned: steps done, the
// budget, and what is laid.
func Tell(best []byte) (done, of int, figure string) {
	l, err := Read(best)
	if err != nil {
		return 0, 0, ""
	}
	figure = fmt.Sprintf("%d laid, %d without a place", len(l.Placed), l.Missing)
	if l.Length > 0 {
		figure = fmt.Sprintf("%d laid on %.3f m", len(l.Placed), l.Length/1000)
	}
	if n := len(l.Resumed); n > 0 {
		figure += fmt.Sprintf("; cut off at %d steps, gone on from its best", l.Resumed[n-1])
	}
	return l.Steps, l.Budget, figure
}

// LayKind and LayVersion name the work Lay to a queue of jobs. The version goes
// up when the same order would be laid otherwise.
const (
	LayKind    = "layout"
	LayVersion = 2
)

// Lay is the work of a job: it reads an Order, searches, reports the best
// layout so far as JSON of a Laid, and returns the last one. Cut off, it goes on
// from what it reported last with what is left of the budget. Nothing is
// returned that the exact checker has not passed.
func Lay(ctx context.Context, input, from []byte, report func([]byte)) ([]byte, error) {
	s, o, err := readOrder(input)
	if err != nil {
		return nil, err
	}
	h, err := newHunt(&s)
	if err != nil {
		return nil, err
	}
	var earlier Laid // zero where nothing was reported
	if len(from) > 0 {
		if earlier, err = Read(from); err != nil {
			return nil, err
		}
		h.list, _ = s.placements(earlier.Placed)
		h.tries, h.found, h.spent = earlier.Tries, earlier.Found, earlier.Steps
		earlier.Resumed = append(earlier.Resumed, earlier.Steps)
	}
	tell := func() Laid {
		l := s.laid(o, h.list, h.spent)
		l.Resumed, l.Tries, l.Found = earlier.Resumed, h.tries, h.found
		return l
	}
	for t, more := h.next(); more && ctx.Err() == nil; t, more = h.next() {
		if err := h.run(ctx, t, o, func() { report(tell().bytes()) }); err != nil {
			return nil, err
		}
	}
	return s.finish(ctx, tell(), h.list)
}

// finish is the last word on a layout, once the exact checker has passed it.
func (s *Set) finish(ctx context.Context, l Laid, list []nest.Placement) ([]byte, error) {
	check, err := nest.CheckPart(s.problem, list)
	if err != nil {
		return nil, fault.Wrap(fault.Internal, err, "the engine handed out a layout that its checker refuses")
	}
	if wrong := s.lotFaults(l.Placed); len(wrong) > 0 {
		return nil, fault.New(fault.Internal, "%s is laid on another dye lot: %s", wrong[0].Name, wrong[0].Says)
	}
	l.Done, l.Verified, l.Status = true, true, "best found"
	switch {
	case ctx.Err() != nil:
		l.Status = "stopped"
	case l.Missing > 0:
		l.Status = "not all found a place"
	}
	if !math.IsInf(check.SmallestGap, 1) {
		l.Gap = check.SmallestGap
	}
	return l.bytes(), nil
}

// bytes is a layout as JSON.
func (l Laid) bytes() []byte {
	data, _ := json.Marshal(l) // numbers, words and lists of them: it cannot fail
	return data
}

// readOrder reads what a layout is made from.
func readOrder(input []byte) (s Set, o Order, err error) {
	if err := json.Unmarshal(input, &o); err != nil {
		return s, o, fault.Wrap(fault.Invalid, err, "read the order of a layout")
	}
	file, err := nestfile.Read(bytes.NewReader(o.Problem))
	if err != nil {
		return s, o, err
	}
	s, err = o.set(file.Problem)
	return s, o, err
}

// unkept adds what to do to the fault of a search with copies that stay.
func unkept(err error, p nest.Problem) error {
	for _, piece := range p.Pieces {
		if len(piece.Locked) > 0 {
			return fault.New(fault.Invalid, "the rest could not be laid about what stays: %v", err).WithHint("let all pieces move, and lay them anew")
		}
	}
	return err
}

// set restores what turns the engine's layout into facts.
func (o Order) set(p nest.Problem) (Set, error) {
	s := Set{Material: o.Name, Hides: o.Hides, lots: o.Lots, Mixed: o.Mixed, problem: p}
	if len(o.Pieces) != len(p.Pieces) || len(o.Hides) != len(p.Containers) || len(o.Lots) > 0 && len(o.Lots) != len(o.Hides) {
		return s, fault.New(fault.Invalid, "an order names %d pieces and %d hides, its problem has %d and %d", len(o.Pieces), len(o.Hides), len(p.Pieces), len(p.Containers))
	}
	for i, one := range o.Pieces {
		if len(one.Copies) != max(p.Pieces[i].Count, 1) {
			return s, fault.New(fault.Invalid, "an order has %d copies of piece %s, its problem %d", len(one.Copies), one.Piece, p.Pieces[i].Count).At(fmt.Sprintf("pieces[%d]", i))
		}
		s.Cuts = append(s.Cuts, Cut{ID: p.Pieces[i].ID, Piece: build.Piece{ID: one.Piece, Face: one.Face}, Copies: one.Copies, Shape: p.Pieces[i].Shape})
		s.copies, s.held = append(s.copies, one.Copies), append(s.held, one.Held)
	}
	return s, nil
}

func (s *Set) laid(o Order, list []nest.Placement, steps int) Laid {
	l := Laid{Material: s.Material, Placed: s.placed(list), Steps: steps, Budget: o.Steps, Seed: o.Seed}
	for _, p := range s.problem.Pieces {
		l.Missing += max(p.Count, 1)
	}
	l.Missing -= len(list)
	for _, at := range list {
		if s.problem.Kind == nest.Strip {
			l.Length = max(l.Length, at.Lay(s.Cuts[at.Piece].Shape).Bounds().Max.X+s.problem.Containers[0].Margin)
		}
	}
	l.Mixed = s.Mixed
	for _, p := range l.Placed {
		if c, lot := CutOf(s.Cuts, p.Piece, p.Copy), s.lotOf(p); c.Piece.Face != "" && lot != "" && !slices.Contains(l.Lots, lot) {
			l.Lots = append(l.Lots, lot)
		}
	}
	return l
}
