package trim

import "fettle/build"

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
