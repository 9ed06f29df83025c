package trim

import (
	"slices"

	"fettle/build"
)

// Loss is what a layout loses with a hide.
type Loss struct {
	Hide  build.HideID
	Moves []Left // the copies that lay on it
	Rest  []build.HideID
}

// LossOf returns what must move when a hide is lost: the copies that the kept
// layout has on it. Without a layout nothing is known to move.
func LossOf(b *build.Build, hide build.HideID) Loss {
	loss := Loss{Hide: hide}
	h := b.Hide(hide)
	if h == nil {
		return loss
	}
	for _, other := range b.Hides {
		if other.Material == h.Material && other.ID != hide && !other.Refused {
			loss.Rest = append(loss.Rest, other.ID)
		}
	}
	if l := b.LayoutOf(h.Material); l != nil {
		cuts := Cuts(b, h.Material)
		for _, p := range l.Placed {
			if c := CutOf(cuts, p.Piece, p.Copy); c != nil && p.Hide == hide {
				loss.Moves = append(loss.Moves, Left{p.Piece, p.Copy, c.Name(p.Copy)})
			}
		}
	}
	return loss
}

// Lots are the dye lots of a material's hides that are not refused, in the
// order in which they came.
func Lots(b *build.Build, material string) []string {
	var list []string
	for _, h := range b.Hides {
		if h.Material == material && !h.Refused && !slices.Contains(list, h.Lot) {
			list = append(list, h.Lot)
		}
	}
	return list
}

// Mixed is a face that a layout cuts from more than one dye lot.
type Mixed struct {
	Face   string
	Lots   []string
	Pieces [][]string // by lot
}

// MixedLots returns the faces whose pieces the kept layouts cut from more than
// one lot: seen side by side they never match.
func MixedLots(b *build.Build) []Mixed {
	var faces []Mixed
	for _, l := range b.Layouts {
		cuts := Cuts(b, l.Material)
		for _, p := range l.Placed {
			c, lot := CutOf(cuts, p.Piece, p.Copy), lotOf(b, l, p)
			if c == nil || c.Piece.Face == "" || lot == "" {
				continue
			}
			faces = noteLot(faces, c.Piece.Face+" in "+l.Material, lot, c.Name(p.Copy))
		}
	}
	return slices.DeleteFunc(faces, func(m Mixed) bool { return len(m.Lots) < 2 })
}

func lotOf(b *build.Build, l build.Layout, p build.Placed) string {
	if r := b.Roll(l.Roll); r != nil {
		return r.Lot
	}
	if h := b.Hide(p.Hide); h != nil {
		return h.Lot
	}
	return ""
}

func noteLot(faces []Mixed, face, lot, piece string) []Mixed {
	i := slices.IndexFunc(faces, func(m Mixed) bool { return m.Face == face })
	if i < 0 {
		i = len(faces)
		faces = append(faces, Mixed{Face: face})
	}
	m := &faces[i]
	k := slices.Index(m.Lots, lot)
	if k < 0 {
		k = len(m.Lots)
		m.Lots, m.Pieces = append(m.Lots, lot), append(m.Pieces, nil)
	}
	m.Pieces[k] = append(m.Pieces[k], piece)
	return faces
}
