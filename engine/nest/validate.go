package nest

import (
	"fmt"
	"math"

	"fettle/fault"
)

// validate holds a problem to the rules:
//
//  1. The kind is Strip, with one container of some height over its margins.
//  2. There is a piece; each has a shape that passes geom.Polygon.Check, no
//     negative count, and finite angles.
//  3. Nothing is asked for that the search does not know yet: see Limits.
func validate(p *Problem) error {
	if p.Kind != Strip {
		return validatePacking(p)
	}
	if len(p.Containers) != 1 || len(p.Pieces) == 0 {
		return fault.New(fault.Invalid, "a strip problem has one container and some pieces")
	}
	if err := validateStrip(p); err != nil {
		return err
	}
	for i := range p.Pieces {
		if err := p.Pieces[i].Shape.Check(); err != nil {
			return fault.Wrap(fault.Invalid, err, nameOf(p, i))
		}
		if err := validatePiece(&p.Pieces[i]); err != nil {
			return err.At(nameOf(p, i))
		}
	}
	return nil
}

func validateStrip(p *Problem) error {
	c := &p.Containers[0]
	switch {
	case !finite(c.Height, c.Margin, p.Clearance, p.Kerf) || c.Margin < 0 || c.Height <= 2*c.Margin:
		return fault.New(fault.Invalid, "the strip has no height between its margins")
	case p.Clearance != 0 || p.Kerf != 0:
		return fault.New(fault.Invalid, "clearance and kerf are not known to the search yet")
	case len(c.Outline.Outer) > 0 || len(c.Zones) > 0 || len(c.KeepOut) > 0 || len(c.Grain) > 0:
		return fault.New(fault.Invalid, "outline, zones, keep-outs and grain of a strip are not known to the search yet")
	}
	return nil
}

func validatePiece(p *Piece) *fault.Fault {
	switch {
	case p.Count < 0:
		return fault.New(fault.Invalid, "a count is negative")
	case p.Quality != 0 || len(p.Zones) > 0 || p.Axis != nil || p.Pair != "" || p.Group != "" || len(p.Locked) > 0:
		return fault.New(fault.Invalid, "qualities, axes, pairs, groups and locked copies are not known to the search yet")
	case p.Free && len(p.Rotations) > 0:
		return fault.New(fault.Invalid, "any angle and a list of angles are both given")
	case !finite(p.Rotations...):
		return fault.New(fault.Invalid, "an angle is no number")
	}
	return nil
}

func finite(list ...float64) bool {
	for _, v := range list {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// nameOf says which piece a fault is about.
func nameOf(p *Problem, i int) string {
	if id := p.Pieces[i].ID; id != "" {
		return fmt.Sprintf("piece %s", id)
	}
	return fmt.Sprintf("piece %d", i+1)
}
