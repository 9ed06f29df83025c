package nestfile

import (
	"fmt"
	"math"

	"fettle/engine/nest"
	"fettle/fault"
	"fettle/geom"
)

// mostCorners is how many a shape of a layout may have with its holes: the
// search takes the square of them.
const mostCorners = 10_000

// shape holds a polygon to its rules, and to the limit.
func shape(p geom.Polygon) error {
	n := 0
	for _, r := range p.Rings() {
		n += len(r)
	}
	if n > mostCorners {
		return fault.New(fault.TooLarge, "a shape of %d corners, at most %d", n, mostCorners).
			WithHint("a corner where the edge turns is enough: trace or export it more coarsely")
	}
	return p.Check()
}

// check holds a file to the rules that every form has: shapes are polygons,
// numbers are in range, IDs are said once.
func (f *File) check() error {
	p := &f.Problem
	if len(p.Pieces) == 0 || len(p.Pieces) > mostPieces {
		return wrong("pieces", "%d pieces: 1 to %d are wanted", len(p.Pieces), mostPieces)
	}
	if len(p.Containers) == 0 || len(p.Containers) > mostPieces {
		return wrong("materials", "%d materials: 1 to %d are wanted", len(p.Containers), mostPieces)
	}
	if p.Kind == nest.Strip && len(p.Containers) != 1 {
		return wrong("materials", "%d materials: a strip has one", len(p.Containers))
	}
	if err := inRange("", -1, "clearance", p.Clearance, "kerf", p.Kerf); err != nil {
		return err
	}
	said := map[string]bool{}
	for i := range p.Containers {
		m := &p.Containers[i]
		where := fmt.Sprintf("materials[%d] %s", i, m.ID)
		if err := once(said, where, m.ID); err != nil {
			return err
		}
		if err := material(m, p.Kind); err != nil {
			return fault.Within(err, where)
		}
	}
	return f.pieces()
}

func (f *File) pieces() error {
	said, copies := map[string]bool{}, 0
	for i := range f.Problem.Pieces {
		piece := &f.Problem.Pieces[i]
		where := fmt.Sprintf("pieces[%d] %s", i, piece.ID)
		if err := once(said, where, piece.ID); err != nil {
			return err
		}
		if err := checkPiece(piece); err != nil {
			return fault.Within(err, where)
		}
		if copies += max(piece.Count, 1); copies > mostCopies {
			return fault.New(fault.TooLarge, "more than %d copies in all", mostCopies).At(where)
		}
	}
	return f.pairs()
}

// pairs wants mates to be pieces that name each other, or that name nobody.
func (f *File) pairs() error {
	at := map[string]int{}
	for i, piece := range f.Problem.Pieces {
		at[piece.ID] = i
	}
	for i, piece := range f.Problem.Pieces {
		if piece.Pair == "" {
			continue
		}
		where := fmt.Sprintf("pieces[%d] %s, pair", i, piece.ID)
		k, known := at[piece.Pair]
		if !known || k == i {
			return wrong(where, "there is no other piece %q", piece.Pair)
		}
		mate := f.Problem.Pieces[k]
		if _, named := at[mate.Pair]; named && mate.Pair != piece.ID {
			return wrong(where, "%s is the mate of %s already", mate.ID, mate.Pair).WithHint("two that must lie together with a third are a group")
		}
	}
	return nil
}

func once(said map[string]bool, where, id string) error {
	if id == "" {
		return wrong(where, "it has no id")
	}
	if said[id] {
		return wrong(where, "the id is said twice")
	}
	said[id] = true
	return nil
}

func material(m *nest.Container, kind nest.Kind) error {
	if kind == nest.Strip {
		if !(m.Height > 0 && m.Height <= largest) {
			return wrong("width", "%g: above 0 and at most %g is wanted", m.Height, largest)
		}
	} else if err := shape(m.Outline); err != nil {
		return err
	}
	if err := zones(m.Zones); err != nil {
		return err
	}
	for i, k := range m.KeepOut {
		if err := shape(k); err != nil {
			return fault.Within(err, fmt.Sprintf("keep_out[%d]", i))
		}
	}
	for i, h := range m.Grain {
		if err := inRange(fmt.Sprintf("grain[%d]", i), 0, "x", h.At.X, "y", h.At.Y, "angle_deg", h.Angle); err != nil {
			return err
		}
	}
	r := m.Repeat
	if err := inRange("repeat", -1, "x", r.X, "y", r.Y); err != nil {
		return err
	}
	if err := inRange("repeat, at", 0, "x", r.Phase.X, "y", r.Phase.Y); err != nil {
		return err
	}
	if m.Count < 0 || m.Count > mostCopies {
		return wrong("count", "%d: 1 to %d are wanted", m.Count, mostCopies)
	}
	return inRange("", -1, "margin", m.Margin, "cost", m.Cost)
}

func zones(list []nest.Zone) error {
	for i, z := range list {
		where := fmt.Sprintf("zones[%d]", i)
		if err := shape(z.Shape); err != nil {
			return fault.Within(err, where)
		}
		if z.Quality < 0 {
			return wrong(where, "a quality of %d: 0 is a hole, more is better", z.Quality)
		}
	}
	return nil
}

func checkPiece(p *nest.Piece) error {
	if err := shape(p.Shape); err != nil {
		return err
	}
	if p.Count < 0 || p.Count > mostCopies {
		return wrong("count", "%d: 1 to %d are wanted", p.Count, mostCopies)
	}
	if p.Free && p.Rotations != nil {
		return wrong("rotations_deg", "a piece that may lie anyhow has no list of angles")
	}
	if p.Rotations != nil && len(p.Rotations) == 0 {
		return wrong("rotations_deg", "a list without an angle").WithHint("leave it out for 0 degrees only")
	}
	if p.Quality < 0 {
		return wrong("quality", "%d: from 0", p.Quality)
	}
	for _, a := range p.Rotations {
		if err := inRange("rotations_deg", 0, "angle", a); err != nil {
			return err
		}
	}
	if a := p.Axis; a != nil {
		if err := inRange("axis", 0, "angle_deg", a.Angle); err != nil {
			return err
		}
		if !(a.Tolerance >= 0 && a.Tolerance <= 180) {
			return wrong("axis, tolerance_deg", "%g: 0 to 180 is wanted", a.Tolerance)
		}
	}
	if m := p.Match; m != nil {
		if err := inRange("match, anchor", 0, "x", m.Anchor.X, "y", m.Anchor.Y); err != nil {
			return err
		}
		if !m.X && !m.Y {
			return wrong("match", "it keeps to no axis of the pattern").WithHint(`say "x": true, "y": true or both`)
		}
	}
	if len(p.Locked) > max(p.Count, 1) {
		return wrong("locked", "%d places for %d copies", len(p.Locked), max(p.Count, 1))
	}
	for i, at := range p.Locked {
		if err := inRange(fmt.Sprintf("locked[%d]", i), 0, "x", at.X, "y", at.Y, "rotation_deg", at.Rotation); err != nil {
			return err
		}
	}
	if err := zones(p.Zones); err != nil {
		return err
	}
	return inRange("", -1, "value", p.Value)
}

// largest is how large a length or an angle may be.
const largest = 1e7

// inRange wants numbers, named one by one, of at most largest; sign -1 says
// that they may not lie below 0.
func inRange(where string, sign int, named ...any) error {
	for i := 0; i+1 < len(named); i += 2 {
		v := named[i+1].(float64)
		if math.Abs(v) <= largest && (sign == 0 || v >= 0) {
			continue
		}
		f := fault.New(fault.Invalid, "%g is out of range: numbers go to %g", v, largest).At(named[i].(string))
		if where != "" {
			f = f.At(where)
		}
		return f
	}
	return nil
}
