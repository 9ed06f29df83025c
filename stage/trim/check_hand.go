package trim

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/geom"
	"fettle/takeoff"
)

// unpaired says that the pattern of a piece is not the mirror image of its
// mate's: one of them would be cut, pressed or sewn the wrong way round.
func unpaired(b *build.Build, piece build.Piece, p build.Pattern) []takeoff.Check {
	mate := b.Pattern(piece.Pair)
	if mate == nil || piece.Pair < piece.ID { // told once, by the first of the two
		return nil
	}
	if off := mirrorOff(lineOf(p.Sewn), lineOf(mate.Sewn)); off > offCut {
		return []takeoff.Check{{ID: "pattern-pair/" + string(piece.ID), Weight: takeoff.Slipping, Link: "trim",
			Says:   fmt.Sprintf("the patterns of %s and %s, left and right, are not mirror images: up to %.1f mm apart", piece.ID, piece.Pair, off),
			Do:     "mirror one of them and keep it as the next revision of the other",
			Figure: figure.Figure{Name: "left and right", Text: fmt.Sprintf("%.1f mm", off), Formula: "greatest distance of one sewn line from the mirror image of the other, box on box", With: fmt.Sprintf("%s against %s", piece.ID, piece.Pair)}}}
	}
	return nil
}

// mirrorOff is how far a closed line lies from the mirror image of another,
// both boxes on each other.
func mirrorOff(a, b []geom.Point) float64 {
	pa, pb := geom.Polygon{Outer: a}, geom.Polygon{Outer: b}
	flipped, at := turnedOver(pb).Outer, geom.Point{X: pa.Bounds().Min.X - pb.Bounds().Min.X, Y: pa.Bounds().Min.Y - pb.Bounds().Min.Y}
	moved := make([]geom.Point, len(flipped))
	for i, q := range flipped {
		moved[i] = q.Add(at)
	}
	return apart(a, moved)
}

// oneHanded says that a piece is sewn on both sides of the vehicle while all of
// its copies are cut one way, and it is not its own mirror image.
func oneHanded(b *build.Build) []takeoff.Check {
	var list []takeoff.Check
	for _, piece := range b.Pieces {
		p := b.Pattern(piece.ID)
		if p == nil || piece.Handed {
			continue
		}
		var seams []string
		for _, m := range b.Seams {
			if slices.ContainsFunc(slices.Concat(m.A, m.B), func(e build.EdgeOf) bool { return e.Piece == piece.ID && e.Mirrored }) {
				seams = append(seams, string(m.ID))
			}
		}
		line := lineOf(p.Sewn)
		if len(seams) == 0 || mirrorOff(line, line) <= offCut {
			continue
		}
		list = append(list, takeoff.Check{ID: "pattern-hand/" + string(piece.ID), Weight: takeoff.Slipping, Link: "trim",
			Says:   fmt.Sprintf("seam %s takes the mirror image of %s %s, and all %d copies are cut one way", strings.Join(seams, ", "), piece.ID, piece.Name, piece.Quantity),
			Do:     "say that the piece is handed, so that every second copy is cut for the other side",
			Figure: figure.Figure{Name: "mirrored copies of " + string(piece.ID), Text: "0", Formula: "copies cut as the mirror image", With: fmt.Sprintf("0 of %d; needed by %s", piece.Quantity, strings.Join(seams, ", "))}})
	}
	return list
}

// noArrow says which patterns have no direction, so that they could be cut to
// stretch the wrong way.
func noArrow(b *build.Build) []takeoff.Check {
	var names []string
	for _, piece := range b.Pieces {
		if b.Pattern(piece.ID) != nil && !piece.Axis.Known() {
			names = append(names, fmt.Sprintf("%s %s", piece.ID, piece.Name))
		}
	}
	if len(names) == 0 {
		return nil
	}
	what := "pattern has"
	if len(names) > 1 {
		what = "patterns have"
	}
	return []takeoff.Check{{ID: "pattern-arrow", Weight: takeoff.Tight, Link: "trim",
		Says: fmt.Sprintf("%d %s no stretch arrow: %s", len(names), what, some(names)), Do: "draw the direction in which each must not give, or it may be cut to stretch the wrong way",
		Figure: figure.Figure{Name: "patterns without an arrow", Text: fmt.Sprint(len(names)), Formula: "pieces with a pattern whose axis has no tolerance", With: strings.Join(names, "; ")}}}
}
