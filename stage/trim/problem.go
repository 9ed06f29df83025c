package trim

import (
	"slices"

	"fettle/build"
	"fettle/engine/nest"
	"fettle/fault"
	"fettle/geom"
)

// Set is what a layout is made from: the drawn hides of a material that are not
// refused, or its roll, and the patterns that come from them.
type Set struct {
	Material string
	Roll     *build.Roll    // nil where it comes in hides
	Hides    []build.HideID // one a container; of a roll one without a name
	Undrawn  []build.HideID // there, but nobody has drawn them
	Cuts     []Cut
	Mixed    bool     // pieces of one face may come from several dye lots
	lots     []string // by hide: its dye lot
	copies   [][]int  // by pattern: which copy of the piece each of the engine's is
	held     []int    // by pattern: how many of those a person has locked; they come first
	problem  nest.Problem
}

// Asked narrows what is laid out.
type Asked struct {
	Material string
	Lots     []string       // dye lots; none is all
	Without  []build.HideID // as if these were lost
	Mixed    bool           // pieces of one face may come from several lots
	Keep     bool           // copies that the kept layout locks stay where they are
	Rest     bool           // all copies that can be cut where the kept layout has them stay: only the rest is laid
}

// SetOf gathers what a layout is made from. It is a fault where no piece is of
// the material, or no hide of it is drawn and it comes on no roll.
func SetOf(b *build.Build, a Asked) (Set, error) {
	s := Set{Material: a.Material, Mixed: a.Mixed, Roll: RollOf(b, a.Material), Cuts: Cuts(b, a.Material), problem: nest.Problem{Kind: nest.Bins, Clearance: Clearance}}
	if len(s.Cuts) == 0 {
		return s, fault.New(fault.Invalid, "no piece is of %s", a.Material)
	}
	if s.Roll != nil {
		s.unroll()
	} else if err := s.spread(b, a); err != nil {
		return s, err
	}
	lock, stay := s.staying(b, a)
	for _, c := range s.Cuts {
		s.add(c, lock, stay)
	}
	return s, nil
}

// spread takes the hides to cut from.
func (s *Set) spread(b *build.Build, a Asked) error {
	for _, h := range b.Hides {
		switch {
		case h.Material != a.Material || h.Refused || slices.Contains(a.Without, h.ID):
		case len(a.Lots) > 0 && !slices.Contains(a.Lots, h.Lot):
		case !h.Outline.Drawn():
			s.Undrawn = append(s.Undrawn, h.ID)
		default:
			s.Hides, s.lots = append(s.Hides, h.ID), append(s.lots, h.Lot)
			s.problem.Containers = append(s.problem.Containers, container(h))
		}
	}
	if len(s.Hides) == 0 {
		return fault.New(fault.Invalid, "no hide of %s is drawn", a.Material).WithHint("draw its outline first: by hand, from a file or from a photo")
	}
	return nil
}

// staying are the copies of the kept layout that stay where they are: those
// that a person has locked, and those that are not to be laid anew.
func (s *Set) staying(b *build.Build, a Asked) (lock, stay []build.Placed) {
	l := b.LayoutOf(a.Material)
	if l == nil || !a.Keep && !a.Rest {
		return nil, nil
	}
	var wrong []Fault
	if a.Rest {
		wrong = verdictOf(b, a.Material, l.Placed, a.Mixed).Faults
	}
	for _, at := range l.Placed {
		bad := slices.ContainsFunc(wrong, func(f Fault) bool { return f.Piece == at.Piece && f.Copy == at.Copy })
		switch {
		case bad || !slices.Contains(s.Hides, at.Hide):
		case at.Locked && a.Keep:
			lock = append(lock, at)
		case a.Rest:
			stay = append(stay, at)
		}
	}
	return lock, stay
}

// container is a hide as the engine takes it: the edge is drawn in where it
// runs through a lesser zone, and zones that take every piece are left out.
func container(h build.Hide) nest.Container {
	c := nest.Container{ID: string(h.ID), Outline: cutInside(h), Margin: EdgeMargin + h.OutlineError.Mm(), Count: 1}
	for _, z := range h.Zones {
		if q := Quality(z.Grade); q < Quality("A") {
			c.Zones = append(c.Zones, nest.Zone{Shape: z.Shape.Polygon(), Quality: q})
		}
	}
	for _, m := range h.Marks {
		if q := Takes(m); q < Quality("A") {
			c.Zones = append(c.Zones, nest.Zone{Shape: m.Shape.Polygon(), Quality: q})
		}
	}
	for _, k := range h.KeepOuts {
		c.KeepOut = append(c.KeepOut, k.Polygon())
	}
	for _, d := range h.Headings {
		c.Grain = append(c.Grain, nest.Heading{At: geom.Point{X: d.At[0].Mm(), Y: d.At[1].Mm()}, Angle: d.Angle})
	}
	return c
}

// add makes a piece of a pattern; copies that stay where they are come first,
// as the engine wants them.
func (s *Set) add(c Cut, lock, stay []build.Placed) {
	p := nest.Piece{ID: c.ID, Shape: c.Shape, Count: len(c.Copies), Quality: Quality(c.Piece.Grade), Pair: s.mate(c), Group: c.Piece.Group}
	if s.Roll != nil {
		p.Rotations, p.Match = turnsOn(*s.Roll, c), matchOn(*s.Roll, c)
	} else if a := c.Axis(); a.Known() {
		p.Free, p.Axis = true, &nest.Axis{Angle: a.Angle, Tolerance: a.Tolerance}
	} else {
		p.Free = true
	}
	var order []int
	held := 0
	for i, list := range [][]build.Placed{lock, stay} {
		for _, at := range list {
			if at.Piece != c.Piece.ID || !slices.Contains(c.Copies, at.Copy) {
				continue
			}
			p.Locked = append(p.Locked, nest.Placement{Piece: len(s.problem.Pieces), Copy: len(order), Container: slices.Index(s.Hides, at.Hide), X: at.X, Y: at.Y, Rotation: at.Rotation})
			order = append(order, at.Copy)
		}
		if i == 0 {
			held = len(order)
		}
	}
	for _, copy := range c.Copies {
		if !slices.Contains(order, copy) {
			order = append(order, copy)
		}
	}
	s.problem.Pieces = append(s.problem.Pieces, p)
	s.copies, s.held = append(s.copies, order), append(s.held, held)
}

// mate is the pattern that comes from the same hide: the other hand, or the
// piece's own mate.
func (s *Set) mate(c Cut) string {
	for _, other := range s.Cuts {
		switch {
		case other.ID == c.ID || len(other.Copies) != len(c.Copies):
		case other.Piece.ID == c.Piece.ID:
			return other.ID
		case c.Piece.Pair != "" && other.Piece.ID == c.Piece.Pair && other.Mirror == c.Mirror:
			return other.ID
		case other.Piece.Pair == c.Piece.ID && other.Mirror == c.Mirror:
			return other.ID
		}
	}
	return ""
}

// placed turns a layout of the engine into facts.
func (s *Set) placed(list []nest.Placement) []build.Placed {
	out := make([]build.Placed, 0, len(list))
	for _, at := range list {
		c := s.Cuts[at.Piece]
		p := build.Placed{Piece: c.Piece.ID, Copy: s.copies[at.Piece][at.Copy], Hide: s.Hides[at.Container], X: at.X, Y: at.Y, Rotation: at.Rotation}
		p.Locked = at.Copy < s.held[at.Piece]
		out = append(out, p)
	}
	return out
}

// placements turns facts into a layout of the engine. Copies on hides that are
// not in the set are returned apart.
func (s *Set) placements(list []build.Placed) (on []nest.Placement, off []build.Placed) {
	for _, p := range list {
		hide := slices.Index(s.Hides, p.Hide)
		piece := slices.IndexFunc(s.Cuts, func(c Cut) bool { return c.Piece.ID == p.Piece && slices.Contains(c.Copies, p.Copy) })
		if hide < 0 || piece < 0 {
			off = append(off, p)
			continue
		}
		on = append(on, nest.Placement{Piece: piece, Copy: slices.Index(s.copies[piece], p.Copy), Container: hide, X: p.X, Y: p.Y, Rotation: p.Rotation})
	}
	return on, off
}
