package nest

import (
	"slices"

	"fettle/fault"
)

// given lists where copies lie before the search begins: locked ones, and those
// of a start layout. A layout that does not pass the exact check is a fault.
func given(p *Problem, start []Placement) ([]Placement, error) {
	list := locked(p)
	if _, err := CheckPart(*p, list); err != nil {
		return nil, fault.Within(err, "locked copies")
	}
	for _, at := range start {
		if at.Piece < 0 || at.Piece >= len(p.Pieces) || at.Copy < 0 || at.Copy >= len(p.Pieces[at.Piece].Locked) {
			list = append(list, at)
		}
	}
	if _, err := CheckPart(*p, list); err != nil {
		return nil, fault.Within(err, "start layout")
	}
	return list, nil
}

// locked lists the locked copies of all pieces.
func locked(p *Problem) []Placement {
	var list []Placement
	for i := range p.Pieces {
		for k, at := range p.Pieces[i].Locked {
			at.Piece, at.Copy = i, k
			list = append(list, at)
		}
	}
	return list
}

// spotOf returns the spot of a placement.
func (s *shop) spotOf(at Placement) spot {
	turns := s.forms[at.Piece].turns
	k := slices.IndexFunc(turns, func(t turn) bool { return t.rotation == at.Rotation && t.mirrored == at.Mirrored })
	if k >= 0 {
		return spot{turn: &turns[k], x: at.X, y: at.Y}
	}
	return s.spun(at.Piece, &turn{}, at.Rotation, at.Mirrored, at.X, at.Y)
}

// find returns which of the items a placement is of.
func find(items []item, at Placement) int {
	return slices.Index(items, item{at.Piece, at.Copy})
}
