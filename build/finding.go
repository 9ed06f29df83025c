package build

import (
	"fmt"

	"fettle/unit"
)

// FindingID names a finding, such as F32. The number is chalked on the metal.
type FindingID string

// FindingState is how far a finding is.
type FindingState string

// The states of a finding, in order.
const (
	Seen     FindingState = "seen"
	Sized    FindingState = "sized"
	Settled  FindingState = "decided"
	CutOut   FindingState = "cut out"
	WeldedIn FindingState = "welded in"
	Dressed  FindingState = "dressed"
	Closed   FindingState = "closed"
)

// FindingStates lists the states in order.
func FindingStates() []FindingState {
	return []FindingState{Seen, Sized, Settled, CutOut, WeldedIn, Dressed, Closed}
}

// Size is how big a finding is. A crack has a width only.
type Size struct {
	Width  unit.Length `json:"width_mm"`
	Height unit.Length `json:"height_mm,omitempty"`
	Count  int         `json:"count,omitempty"` // of equal places; 0 and 1 mean one
	Round  bool        `json:"round,omitempty"` // holes of diameter Width; Height is the smallest of them, if given
}

// Places returns the number of equal places, at least one.
func (s Size) Places() int { return max(s.Count, 1) }

// Area returns the metal covered: rectangles, or the squares around holes; a
// crack counts as a strip of 20 mm.
func (s Size) Area() unit.Area {
	h := s.Height
	if s.Round {
		h = s.Width
	} else if h == 0 {
		h = 20 * unit.Millimetre
	}
	return unit.Area(s.Places()) * unit.Rect(s.Width, h)
}

// String writes the size as it is chalked.
func (s Size) String() string {
	mm := func(l unit.Length) string { return unit.FormatDecimal(int64(l), 3, 0) }
	text := mm(s.Width)
	switch {
	case s.Round && s.Height > 0:
		text = mm(s.Height) + "–" + text + " dia"
	case s.Round:
		text += " dia"
	case s.Height > 0:
		text += " × " + mm(s.Height)
	}
	if s.Places() > 1 {
		text = fmt.Sprintf("%d of %s", s.Places(), text)
	}
	return text + " mm"
}

// Leg is the part of one trade in a piece of work.
type Leg struct {
	Trade TradeID     `json:"trade"`
	Hours unit.Effort `json:"hours_h"`
}

// Total returns the hours of all legs.
func Total(legs []Leg) unit.Effort {
	var sum unit.Effort
	for _, l := range legs {
		sum += l.Hours
	}
	return sum
}

// Finding is something wrong with a panel, and what will be done about it.
type Finding struct {
	ID     FindingID    `json:"id"`
	Panels []PanelID    `json:"panels"`
	X      unit.Length  `json:"x_mm"` // rearward of the front axle
	Z      unit.Length  `json:"z_mm"` // above the floor
	Found  string       `json:"found"`
	What   string       `json:"what"`
	Size   Size         `json:"size"`
	Remedy PanelState   `json:"remedy"` // keep, repair, replace or make; empty is not decided
	How    string       `json:"how,omitempty"`
	Work   []Leg        `json:"work,omitempty"`
	Task   TaskID       `json:"task"`
	State  FindingState `json:"state"`
	Photos []PhotoHash  `json:"photos,omitempty"`
}

// Hours returns the planned hours of the remedy.
func (f Finding) Hours() unit.Effort { return Total(f.Work) }

// Finding returns the finding of that ID, or nil.
func (b *Build) Finding(id FindingID) *Finding {
	return find(b.Findings, id, func(f *Finding) FindingID { return f.ID })
}

// NextFinding returns the number a new finding gets.
func (b *Build) NextFinding() FindingID {
	highest := 0
	for _, f := range b.Findings {
		var n int
		if _, err := fmt.Sscanf(string(f.ID), "F%d", &n); err == nil {
			highest = max(highest, n)
		}
	}
	return FindingID(fmt.Sprintf("F%02d", highest+1))
}
