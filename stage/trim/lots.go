package trim

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
)

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
	Face     string // with its material, as it is said
	Material string
	Lots     []string
	Pieces   [][]string // by lot
}

// MixedLots returns the faces whose pieces the kept layouts cut from more than
// one lot: seen side by side they never match.
func MixedLots(b *build.Build) []Mixed {
	var list []Mixed
	for _, l := range b.Layouts {
		list = append(list, mixedIn(Cuts(b, l.Material), l.Material, l.Placed, func(p build.Placed) string { return lotOf(b, l, p) })...)
	}
	return list
}

// SeenLots are the dye lots that the pieces of a layout that are seen are cut
// from.
func SeenLots(b *build.Build, l build.Layout) []string {
	var lots []string
	cuts := Cuts(b, l.Material)
	for _, p := range l.Placed {
		if c, lot := CutOf(cuts, p.Piece, p.Copy), lotOf(b, l, p); c != nil && c.Piece.Face != "" && lot != "" && !slices.Contains(lots, lot) {
			lots = append(lots, lot)
		}
	}
	return lots
}

// mixedIn are the faces of a layout with more than one lot.
func mixedIn(cuts []Cut, material string, list []build.Placed, lotOf func(build.Placed) string) []Mixed {
	var faces []Mixed
	for _, p := range list {
		if c, lot := CutOf(cuts, p.Piece, p.Copy), lotOf(p); c != nil && c.Piece.Face != "" && lot != "" {
			faces = noteLot(faces, c.Piece.Face, material, lot, c.Name(p.Copy))
		}
	}
	return slices.DeleteFunc(faces, func(m Mixed) bool { return len(m.Lots) < 2 })
}

// Says is a mixed face as a sentence's part: by lot, its pieces.
func (m Mixed) Says() string {
	var lots []string
	for i, lot := range m.Lots {
		lots = append(lots, fmt.Sprintf("lot %s: %s", lot, some(m.Pieces[i])))
	}
	return m.Face + ": " + strings.Join(lots, "; ")
}

// lotOf is the dye lot of a hide of the set.
func (s *Set) lotOf(p build.Placed) string {
	if i := slices.Index(s.Hides, p.Hide); i >= 0 && i < len(s.lots) {
		return s.lots[i]
	}
	return ""
}

// lotFaults are the copies of each face that are not of the lot most of its
// copies are cut from. There are none where lots may differ.
func (s *Set) lotFaults(list []build.Placed) []Fault {
	if s.Mixed {
		return nil
	}
	var faults []Fault
	for _, m := range mixedIn(s.Cuts, s.Material, list, s.lotOf) {
		main := 0
		for i := range m.Lots {
			if len(m.Pieces[i]) > len(m.Pieces[main]) {
				main = i
			}
		}
		for _, p := range list {
			lot, name := s.lotOf(p), s.name(p.Piece, p.Copy)
			if i := slices.Index(m.Lots, lot); i >= 0 && i != main && slices.Contains(m.Pieces[i], name) {
				faults = append(faults, Fault{p.Piece, p.Copy, name, p.Hide, s.where(p.Hide), fmt.Sprintf("its hide is of lot %s, and most of the %s is of lot %s: two lots never match", lot, m.Face, m.Lots[main])})
			}
		}
	}
	return faults
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

func noteLot(faces []Mixed, face, material, lot, piece string) []Mixed {
	face += " in " + material
	i := slices.IndexFunc(faces, func(m Mixed) bool { return m.Face == face })
	if i < 0 {
		i = len(faces)
		faces = append(faces, Mixed{Face: face, Material: material})
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

// LotSays says of a finished layout which dye lot what is seen is cut from, or
// that no one lot takes it all and what is missing by lot. It is empty where
// there is nothing to say.
func (l Laid) LotSays() string {
	list := l.shorts()
	if len(list) == 0 {
		return ofOneLot(l.Lots)
	}
	var words []string
	for _, t := range list {
		words = append(words, fmt.Sprintf("on lot %s %s without a place (%s)", lotName(t.Lot), count(len(t.Lacks)), some(t.Lacks)))
	}
	return fmt.Sprintf("No one dye lot took all that is seen: %s. Another hide of lot %s saves a second lot in what is seen. A longer look may find room; or say that the lots may differ, and they will show.", strings.Join(words, ", "), lotName(l.Short()))
}

// Short is the dye lot of which another hide would take what is seen; empty
// where none is missing.
func (l Laid) Short() string {
	list := l.shorts()
	if len(list) == 0 {
		return ""
	}
	return slices.MinFunc(list, func(a, b Try) int { return len(a.Lacks) - len(b.Lacks) }).Lot
}

// shorts are the best tries of all lots, where none takes all that is seen.
func (l Laid) shorts() []Try {
	var list []Try
	for _, t := range l.Tries {
		i := slices.IndexFunc(list, func(o Try) bool { return o.Lot == t.Lot })
		switch {
		case t.Rest:
		case len(t.Lacks) == 0:
			return nil
		case i < 0:
			list = append(list, t)
		case len(t.Lacks) < len(list[i].Lacks):
			list[i] = t
		}
	}
	return list
}

func ofOneLot(lots []string) string {
	if len(lots) != 1 {
		return ""
	}
	return "All that is seen is of dye lot " + lots[0] + "."
}

func lotName(lot string) string {
	if lot == "" {
		return "that is not noted"
	}
	return lot
}

func count(n int) string {
	if n == 1 {
		return "1 piece is"
	}
	return fmt.Sprintf("%d pieces are", n)
}
