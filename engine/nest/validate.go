package nest

import (
	"fmt"
	"math"
	"slices"

	"fettle/fault"
)

// validate holds a problem to the rules:
//
//  1. There are pieces and something to cut them from: of a Strip one roll of
//     some height over its margins and without an outline.
//  2. Every shape, zone and keep-out passes geom.Polygon.Check; counts,
//     margins, clearance and qualities are 0 or more, all numbers finite.
//  3. A piece has any angle or a list of them, not both, and with a tight
//     direction one of them follows some material.
//  4. A pattern comes again after more than 0, or not at all along an axis, and
//     what keeps to it does so along an axis of some material.
//
// That locked copies and a start layout can be cut as they lie is asked of
// Check: see given. What cannot be laid for want of room is no fault here.
func validate(p *Problem) error {
	if len(p.Containers) == 0 || len(p.Pieces) == 0 {
		return fault.New(fault.Invalid, "there is nothing to cut, or nothing to cut it from")
	}
	if !finite(p.Clearance, p.Kerf) || p.Clearance < 0 || p.Kerf < 0 {
		return fault.New(fault.Invalid, "clearance %g, kerf %g: both are 0 or more", p.Clearance, p.Kerf)
	}
	if p.Kind == Strip && len(p.Containers) != 1 {
		return fault.New(fault.Invalid, "a strip problem has one container and some pieces")
	}
	for i := range p.Containers {
		if err := validateContainer(p.Kind, &p.Containers[i]); err != nil {
			return fault.Within(err, fmt.Sprintf("material %s", p.Containers[i].ID))
		}
	}
	headings := headingsOf(p)
	for i := range p.Pieces {
		if err := validatePiece(&p.Pieces[i], headings); err != nil {
			return fault.Within(err, nameOf(p, i))
		}
		if err := validateMatch(p.Pieces[i].Match, p.Containers); err != nil {
			return fault.Within(err, nameOf(p, i))
		}
	}
	return nil
}

func validateContainer(kind Kind, c *Container) error {
	if kind == Strip {
		switch {
		case !finite(c.Height) || c.Height <= 2*c.Margin:
			return fault.New(fault.Invalid, "the strip has no height between its margins")
		case len(c.Outline.Outer) > 0:
			return fault.New(fault.Invalid, "a strip has a height, and no outline")
		}
	} else if err := c.Outline.Check(); err != nil {
		return fault.Wrap(fault.Invalid, err, "outline")
	}
	switch {
	case !finite(c.Margin, c.Cost) || c.Margin < 0 || c.Cost < 0:
		return fault.New(fault.Invalid, "margin %g, cost %g: both are 0 or more", c.Margin, c.Cost)
	case c.Count < 0:
		return fault.New(fault.Invalid, "a count is negative")
	}
	if err := validateRepeat(c.Repeat); err != nil {
		return err
	}
	for i, k := range c.KeepOut {
		if err := k.Check(); err != nil {
			return fault.Wrap(fault.Invalid, err, counted("keep-out", i))
		}
	}
	for i, h := range c.Grain {
		if !finite(h.At.X, h.At.Y, h.Angle) {
			return fault.New(fault.Invalid, "no direction at a place").At(counted("heading", i))
		}
	}
	return validateZones(c.Zones)
}

func validateRepeat(r Repeat) error {
	for _, axis := range []struct {
		name          string
		repeat, phase float64
	}{{"x", r.X, r.Phase.X}, {"y", r.Y, r.Phase.Y}} {
		where := "pattern along " + axis.name
		switch {
		case !finite(axis.repeat) || axis.repeat < 0:
			return fault.New(fault.Invalid, "it comes again after %g: more than 0, or 0 for no pattern", axis.repeat).At(where)
		case !finite(axis.phase):
			return fault.New(fault.Invalid, "it begins at %g", axis.phase).At(where)
		case axis.repeat == 0 && axis.phase != 0:
			return fault.New(fault.Invalid, "it begins at %g and never comes again", axis.phase).At(where)
		}
	}
	return nil
}

// validateMatch asks for a pattern along every axis that is held.
func validateMatch(m *Match, materials []Container) error {
	switch {
	case m == nil:
		return nil
	case !finite(m.Anchor.X, m.Anchor.Y):
		return fault.New(fault.Invalid, "its anchor is at %g, %g", m.Anchor.X, m.Anchor.Y)
	case !m.X && !m.Y:
		return fault.New(fault.Invalid, "it keeps to a pattern along no axis")
	case m.X && !slices.ContainsFunc(materials, func(c Container) bool { return c.Repeat.X > 0 }):
		return fault.New(fault.Invalid, "it keeps to a pattern along x, and no material has one")
	case m.Y && !slices.ContainsFunc(materials, func(c Container) bool { return c.Repeat.Y > 0 }):
		return fault.New(fault.Invalid, "it keeps to a pattern along y, and no material has one")
	}
	return nil
}

func validateZones(zones []Zone) error {
	for i, z := range zones {
		if err := z.Shape.Check(); err != nil {
			return fault.Wrap(fault.Invalid, err, counted("zone", i))
		}
		if z.Quality < 0 {
			return fault.New(fault.Invalid, "a quality of %d: 0 is a hole, more is better", z.Quality).At(counted("zone", i))
		}
	}
	return nil
}

func validatePiece(p *Piece, headings []float64) error {
	if err := p.Shape.Check(); err != nil {
		return fault.Wrap(fault.Invalid, err, "shape")
	}
	switch {
	case p.Count < 0:
		return fault.New(fault.Invalid, "a count is negative")
	case p.Quality < 0:
		return fault.New(fault.Invalid, "a quality of %d is asked for: 0 asks for material without any zone, more for better", p.Quality)
	case p.Free && len(p.Rotations) > 0:
		return fault.New(fault.Invalid, "any angle and a list of angles are both given")
	case !finite(append(slices.Clone(p.Rotations), p.Value)...):
		return fault.New(fault.Invalid, "an angle or a value is no number")
	case len(p.Locked) > max(p.Count, 1):
		return fault.New(fault.Invalid, "%d copies are locked, and %d are wanted", len(p.Locked), max(p.Count, 1))
	}
	if err := validateAxis(p, headings); err != nil {
		return err
	}
	return validateZones(p.Zones)
}

// validateAxis asks for one turn at which the tight direction follows that of
// some material.
func validateAxis(p *Piece, headings []float64) error {
	if p.Axis == nil {
		return nil
	}
	if !finite(p.Axis.Angle, p.Axis.Tolerance) || p.Axis.Tolerance < 0 {
		return fault.New(fault.Invalid, "a tight direction at %g degrees, to within %g", p.Axis.Angle, p.Axis.Tolerance)
	}
	if p.Free || len(p.Locked) >= max(p.Count, 1) {
		return nil
	}
	least := math.Inf(1)
	for _, a := range angles(p, headings) {
		for _, h := range headings {
			for _, mirrored := range p.faces() {
				least = min(least, math.Abs(p.Axis.off(h, a, mirrored)))
			}
		}
	}
	if least > p.Axis.Tolerance+strayHair {
		return fault.New(fault.Invalid, "in none of its turns does its tight direction follow that of any material: it strays by %.4g degrees or more, and may by %g", least, p.Axis.Tolerance)
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
