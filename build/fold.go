package build

import (
	"math"

	"fettle/unit"
)

// Profile is the section of a blank that is folded along parallel lines: its
// flanges from one edge of the sheet to the other. Seen from its end, the first
// flange runs to the right with the sheet's upper face up. It is a part of the
// blank, not a fact beside it: one number, one gauge, one count, one place on a
// sheet. The blank's width is the length of the bends, its height the flat
// size, as they were worked out when the profile was kept.
type Profile struct {
	Flanges []Flange `json:"flanges"`
}

// Flange is one straight part of a profile, and the bend behind it.
type Flange struct {
	Length unit.Length `json:"length_mm"`     // over the outside: see Bend.Setback
	Bend   Bend        `json:"bend,omitzero"` // to the next; none behind the last
}

// Bend is how the sheet turns from one flange to the next.
type Bend struct {
	Angle  float64     `json:"angle_deg"` // that it is turned through: 90 is square, 180 lies back on itself
	Radius unit.Length `json:"radius_mm"` // inside
	Down   bool        `json:"down,omitempty"`
}

// Folded tells whether there is a profile.
func (p Profile) Folded() bool { return len(p.Flanges) > 0 }

// Bends lists the bends from the first flange on.
func (p Profile) Bends() []Bend {
	var list []Bend
	for i := 0; i+1 < len(p.Flanges); i++ {
		list = append(list, p.Flanges[i].Bend)
	}
	return list
}

// Setback is how much of a flange's outside length belongs to the bend, in mm:
// up to a square bend a flange is measured to where the outer faces would meet,
// beyond it to the outermost place of the bend, as a rule or caliper does.
func (b Bend) Setback(gauge unit.Length) float64 {
	out := b.Radius.Mm() + gauge.Mm()
	if b.Angle >= 90 {
		return out
	}
	return out * math.Tan(b.Angle*math.Pi/360)
}

// Straight is what stays flat of flange i, in mm; below 0 the bends on both
// sides of it have no room.
func (p Profile) Straight(i int, gauge unit.Length) float64 {
	left := p.Flanges[i].Length.Mm()
	if i > 0 {
		left -= p.Flanges[i-1].Bend.Setback(gauge)
	}
	if i+1 < len(p.Flanges) {
		left -= p.Flanges[i].Bend.Setback(gauge)
	}
	return left
}

// StripID names a test strip.
type StripID string

// Strip is a strip of sheet that was folded once to see what a bend takes.
type Strip struct {
	ID      StripID     `json:"id"`
	Gauge   unit.Length `json:"gauge_mm"`
	Bend    Bend        `json:"bend"`
	Flat    unit.Length `json:"flat_mm"`                    // its length before
	First   unit.Length `json:"first_mm"`                   // what came, measured over the outside as flanges are
	Second  unit.Length `json:"second_mm"`                  // the other one
	Springs float64     `json:"springs_back_deg,omitempty"` // by how much the bend opened when it was let go
	Note    string      `json:"note,omitempty"`
}

// Took is the length of sheet that lies in the bend, in mm.
func (s Strip) Took() float64 {
	return s.Flat.Mm() - s.First.Mm() - s.Second.Mm() + 2*s.Bend.Setback(s.Gauge)
}

// K is the strip's own K-factor: how deep in the sheet, from the inside and as
// a share of its thickness, the line lies that kept its length.
func (s Strip) K() float64 {
	return (s.Took()/(s.Bend.Angle*math.Pi/180) - s.Bend.Radius.Mm()) / s.Gauge.Mm()
}

// Brake is what the shop folds sheet on. What is 0 is not stated.
type Brake struct {
	Name  string      `json:"name"`
	Width unit.Length `json:"width_mm,omitempty"`  // the longest bend
	Gauge unit.Length `json:"gauge_mm,omitempty"`  // the thickest mild steel over that width
	Least unit.Length `json:"least_mm,omitempty"`  // the shortest flange that it takes hold of
	Nose  unit.Length `json:"nose_mm,omitempty"`   // how far back from the bend nose and bed reach
	Slope float64     `json:"slope_deg,omitempty"` // how steeply the face of the nose leaves the sheet
}

// Strip returns the test strip of that ID, or nil.
func (b *Build) Strip(id StripID) *Strip {
	return find(b.Strips, id, func(s *Strip) StripID { return s.ID })
}
