package trim

import (
	"fmt"
	"math"

	"fettle/build"
	"fettle/engine/nest"
	"fettle/geom"
)

// Remnant is the largest rectangle found that a layout leaves of a hide, good
// for any grade: clear of pieces, marks, zones and the edge as a piece is.
type Remnant struct {
	Hide    build.HideID  `json:"hide"`
	Corners [4]geom.Point `json:"corners_mm"`
	Length  float64       `json:"length_mm"`
	Width   float64       `json:"width_mm"`
}

// usefulRemnant is from which width a remnant is worth a line, mm: a strap is
// cut from less, a piece hardly.
const usefulRemnant = 100

// Remnants are what a layout leaves of the hides it lies on; nothing where some
// of it cannot be cut as it lies, and of a roll, whose end is left.
func (s *Set) Remnants(list []build.Placed) []Remnant {
	on, off := s.placements(list)
	left, err := nest.Remnants(s.problem, on)
	if err != nil || len(off) > 0 {
		return nil
	}
	var out []Remnant
	for _, r := range left {
		if r.Width >= usefulRemnant {
			out = append(out, Remnant{s.Hides[r.Container], r.Corners, r.Length, r.Width})
		}
	}
	return out
}

// Words says its size, in whole millimetres that are there.
func (r Remnant) Words() string {
	return fmt.Sprintf("%.0f × %.0f mm", math.Floor(r.Length), math.Floor(r.Width))
}
