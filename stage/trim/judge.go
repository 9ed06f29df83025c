package trim

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/nest"
	"fettle/fault"
)

// Fault is what is wrong with where a copy lies.
type Fault struct {
	Piece build.PieceID `json:"piece"`
	Copy  int           `json:"copy"`
	Name  string        `json:"name"`           // such as T05 L
	Hide  build.HideID  `json:"hide,omitempty"` // none on a roll
	On    string        `json:"on"`             // such as hide H1
	Says  string        `json:"says"`
}

// Verdict is what the exact checker says of a layout.
type Verdict struct {
	Faults  []Fault `json:"faults,omitempty"`
	Missing []Left  `json:"missing,omitempty"`   // copies without a place
	Gap     float64 `json:"smallest_gap_mm"`     // between two pieces, or of a piece to an edge or a mark; 0 where nothing is laid
	Nearest string  `json:"nearest,omitempty"`   // what lies so near each other
	Length  float64 `json:"length_mm,omitempty"` // of a roll: what the copies without a fault take
}

// Left is a copy that lies nowhere.
type Left struct {
	Piece build.PieceID `json:"piece"`
	Copy  int           `json:"copy"`
	Name  string        `json:"name"`
}

// Whole tells whether every copy lies and nothing is wrong with any.
func (v Verdict) Whole() bool { return len(v.Faults) == 0 && len(v.Missing) == 0 }

// Judge checks every copy of a layout by the exact checker of the engine, one
// after another: of two that overlap the later one has the fault. A copy on a
// hide that is refused, lost or not drawn has one too.
func (s *Set) Judge(list []build.Placed) Verdict {
	var v Verdict
	on, off := s.placements(list)
	for _, p := range off {
		v.Faults = append(v.Faults, Fault{p.Piece, p.Copy, s.name(p.Piece, p.Copy), p.Hide, s.where(p.Hide), s.offWhy(p)})
	}
	faults, report := nest.CheckEach(s.problem, on)
	for i, err := range faults {
		if err != nil {
			c := s.Cuts[on[i].Piece]
			n := s.copies[on[i].Piece][on[i].Copy]
			v.Faults = append(v.Faults, Fault{c.Piece.ID, n, c.Name(n), s.Hides[on[i].Container], s.where(s.Hides[on[i].Container]), says(err)})
		}
	}
	for _, f := range s.lotFaults(list) {
		if !slices.ContainsFunc(v.Faults, func(o Fault) bool { return o.Piece == f.Piece && o.Copy == f.Copy }) {
			v.Faults = append(v.Faults, f)
		}
	}
	if v.Gap, v.Nearest = report.SmallestGap, report.Nearest; math.IsInf(v.Gap, 1) {
		v.Gap = 0
	}
	if s.Roll != nil {
		v.Length = report.Length
	}
	v.Missing = s.missing(list)
	return v
}

// says is a fault of the checker as a sentence.
func says(err error) string {
	if f, ok := errors.AsType[*fault.Fault](err); ok {
		return f.Msg
	}
	return err.Error()
}

func (s *Set) offWhy(p build.Placed) string {
	if CutOf(s.Cuts, p.Piece, p.Copy) == nil {
		return "no such piece is cut from " + s.Material
	}
	return s.where(p.Hide) + " is not to be cut from"
}

func (s *Set) name(piece build.PieceID, copy int) string {
	if c := CutOf(s.Cuts, piece, copy); c != nil {
		return c.Name(copy)
	}
	return fmt.Sprintf("%s %d", piece, copy+1)
}

// missing are the copies that no line of a layout places.
func (s *Set) missing(list []build.Placed) []Left {
	l := build.Layout{Placed: list}
	var out []Left
	for _, c := range s.Cuts {
		for _, n := range c.Copies {
			if l.Where(c.Piece.ID, n) == nil {
				out = append(out, Left{c.Piece.ID, n, c.Name(n)})
			}
		}
	}
	return out
}
