package build

import (
	"fmt"
	"slices"
	"strings"

	"fettle/unit"
)

// Bounds of rule 3 for sewing.
const (
	mostPitch   = 50 * unit.Millimetre
	mostStack   = 100 * unit.Millimetre
	mostTop     = 100 * unit.Millimetre
	mostEase    = 20.0 // per cent
	mostTex     = 1_000
	mostThread  = 100_000 * unit.Metre
	mostStretch = 100.0 // per cent
)

// checkSewing holds seams, threads, cords and covers to the rules.
func (b *Build) checkSewing() error {
	for _, t := range b.Threads {
		where := "thread " + string(t.ID)
		if err := first(needText(t.Name, where+", name"), inRange(t.Tex, 1, mostTex, "Tex", where), inRange(t.Bobbin, 0, mostThread, "bobbin", where),
			inRange(t.Spool, 0, mostThread, "spool", where), b.partThere(t.Part, where)); err != nil {
			return err
		}
	}
	for _, c := range b.Cords {
		where := "piping cord " + string(c.ID)
		if err := first(needText(c.Name, where+", name"), inRange(c.Diameter, 1, mostTop, "diameter", where), b.partThere(c.Part, where)); err != nil {
			return err
		}
	}
	for _, c := range b.Covers {
		if err := checkCover(c); err != nil {
			return err
		}
	}
	for _, s := range b.Seams {
		if err := b.checkSeam(s); err != nil {
			return err
		}
	}
	return b.checkSewOrder()
}

func checkCover(c Cover) error {
	where := "cover " + string(c.ID)
	return first(needText(c.Material, where+", material"), oneOf(c.Kind, CoverKinds(), where+", kind"), inRange(c.Thickness, 1, mostStack, "thickness", where),
		inRange(c.Loss, 0, mostLoss, "pleat loss", where), inRange(c.LossOver, 0, mostStack, "foam", where),
		within(c.Along, 0, mostStretch, "stretch along", where), within(c.Across, 0, mostStretch, "stretch across", where), within(c.Squeeze, 0, mostStretch, "squeeze", where))
}

// checkSeam holds a seam to the rules. Whether the pattern of a piece has the
// edge it names is for the take-off to say: patterns are revised.
func (b *Build) checkSeam(s Seam) error {
	where := "seam " + string(s.ID)
	if err := first(needText(s.Name, where+", name"), oneOf(s.Kind, SeamKinds(), where+", kind"), inRange(s.Times, 1, mostCount, "times", where),
		inRange(s.Length, 0, mostLength, "length", where), inRange(s.Pitch, 0, mostPitch, "pitch", where), inRange(s.Stack, 0, mostStack, "stack", where),
		inRange(s.Top, 0, mostTop, "top-stitching", where), within(s.Ease, -mostEase, mostEase, "ease", where), inRange(s.Corners, 0, mostCount, "corners", where)); err != nil {
		return err
	}
	switch {
	case len(s.A) == 0:
		return rule(ruleExists, "no edge is named").At(where + ", a")
	case s.Kind.Joins() != (len(s.B) > 0):
		return rule(ruleWhole, "a seam that joins has two sides, any other one").At(where + ", b")
	case s.Cord != "" && b.Cord(s.Cord) == nil:
		return at(missing("piping cord", s.Cord), where+", cord")
	case (s.Cord != "" || s.Piping != "") && s.Kind != Piped:
		return rule(ruleOrder, "only a piped seam has piping").At(where)
	case s.Piping != "" && b.Piece(s.Piping) == nil:
		return at(missing("trim piece", s.Piping), where+", piping")
	}
	return first(b.threadThere(s.Thread, where), b.checkSide(s.A, where+", a"), b.checkSide(s.B, where+", b"), checkMeetings(s.Match, where+", match"))
}

func (b *Build) checkSide(list []EdgeOf, where string) error {
	for i, e := range list {
		at := fmt.Sprintf("%s, edge %d", where, i+1)
		if err := first(b.pieceThere(e.Piece, at), needText(e.Edge, at+", edge")); err != nil {
			return err
		}
	}
	return nil
}

// checkMeetings: places that meet rise on both sides, between their ends.
func checkMeetings(list []Meeting, where string) error {
	last := Meeting{}
	for i, m := range list {
		if !(m.A > last.A && m.B > last.B && m.A < 1 && m.B < 1) {
			return rule(ruleRange, "shares lie between 0 and 1 and rise on both sides").At(fmt.Sprintf("%s, line %d", where, i+1))
		}
		last = m
	}
	return nil
}

// checkSewOrder applies rules 2 and 6 to what is sewn before what.
func (b *Build) checkSewOrder() error {
	left := map[SeamID]int{} // seams before it that are not in order yet
	next := map[SeamID][]SeamID{}
	for _, s := range b.Seams {
		for _, before := range append(slices.Clone(s.After), s.Inside...) {
			if b.Seam(before) == nil {
				return at(missing("seam", before), "seam "+string(s.ID)+", after")
			}
			left[s.ID]++
			next[before] = append(next[before], s.ID)
		}
	}
	var ready []SeamID
	for _, s := range b.Seams {
		if left[s.ID] == 0 {
			ready = append(ready, s.ID)
		}
	}
	for i := 0; i < len(ready); i++ {
		for _, id := range next[ready[i]] {
			if left[id]--; left[id] == 0 {
				ready = append(ready, id)
			}
		}
	}
	var stuck []string
	for _, s := range b.Seams {
		if left[s.ID] > 0 {
			stuck = append(stuck, string(s.ID))
		}
	}
	if len(stuck) > 0 {
		return rule(ruleLoop, "seams wait for each other: %s", strings.Join(stuck, ", ")).At("seam " + stuck[0] + ", after")
	}
	return nil
}

// partThere applies rule 2 to a part that may be left out.
func (b *Build) partThere(id PartID, where string) error {
	if id != "" && b.Part(id) == nil {
		return at(missing("part", id), where+", part")
	}
	return nil
}

// threadThere applies rule 2 to a thread that may be left out.
func (b *Build) threadThere(id ThreadID, where string) error {
	if id != "" && b.Thread(id) == nil {
		return at(missing("thread", id), where+", thread")
	}
	return nil
}

func (b *Build) pieceThere(id PieceID, where string) error {
	if b.Piece(id) == nil {
		return at(missing("trim piece", id), where)
	}
	return nil
}
