package build

import (
	"fmt"

	"fettle/unit"
)

// Bounds of rule 3 in the trim shop.
const (
	mostOutlineError = 200 * unit.Millimetre
	mostAngle        = 360.0
)

func (b *Build) checkTrim() error {
	for _, p := range b.Pieces {
		if err := b.checkPiece(p); err != nil {
			return err
		}
	}
	for _, r := range b.Rolls {
		if err := b.checkRoll(r); err != nil {
			return err
		}
	}
	for _, h := range b.Hides {
		if err := checkHide(h); err != nil {
			return err
		}
	}
	for _, l := range b.Layouts {
		if err := b.checkLayout(l); err != nil {
			return err
		}
	}
	if err := first(b.checkPatterns(), b.checkSewing(), b.checkSundries()); err != nil {
		return err
	}
	for _, m := range b.Motif.Places {
		for _, id := range m.Needs {
			if b.Task(id) == nil {
				return at(missing("task", id), "motif place "+m.ID+", needs")
			}
		}
	}
	return nil
}

func (b *Build) checkPiece(p Piece) error {
	where := "trim piece " + string(p.ID)
	if err := first(inRange(p.Width, 1, mostLength, "width", where), inRange(p.Height, 1, mostLength, "height", where),
		inRange(p.Quantity, 1, mostCount, "quantity", where),
		inRange(p.Match.At[0], -mostLength, mostLength, "x", where+", match"), inRange(p.Match.At[1], -mostLength, mostLength, "y", where+", match"),
		within(p.Axis.Angle, -mostAngle, mostAngle, "angle", where+", axis"), within(p.Axis.Tolerance, 0, 90, "tolerance", where+", axis")); err != nil {
		return err
	}
	if p.Shape.Drawn() {
		if err := p.Shape.check(where + ", shape"); err != nil {
			return err
		}
	}
	return b.checkMate(p, where+", pair")
}

// checkMate holds a pair to rules 2 and 11: the mate is there, of the same
// material, as often, and mated to nobody else.
func (b *Build) checkMate(p Piece, where string) error {
	if p.Pair == "" {
		return nil
	}
	mate := b.Piece(p.Pair)
	switch {
	case mate == nil:
		return at(missing("trim piece", p.Pair), where)
	case mate.ID == p.ID:
		return rule(ruleID, "a piece is not its own mate: a handed piece of two copies is").At(where)
	case mate.Pair != "" && mate.Pair != p.ID:
		return rule(ruleOrder, "piece %s is the mate of %s", mate.ID, mate.Pair).At(where)
	case mate.Material != p.Material || mate.Quantity != p.Quantity:
		return rule(ruleWhole, "piece %s is of another material or another number", mate.ID).At(where)
	}
	return nil
}

func (b *Build) checkRoll(r Roll) error {
	where := "roll " + string(r.ID)
	if r.Part != "" && b.Part(r.Part) == nil {
		return at(missing("part", r.Part), where+", part")
	}
	for axis, repeat := range []unit.Length{r.Repeat, r.Across} {
		if err := first(inRange(repeat, 0, mostLength, "repeat", where), inRange(r.Begins[axis], 0, repeat, "pattern", where)); err != nil {
			return err
		}
	}
	return first(needText(r.Material, where+", material"), inRange(r.Width, 1, mostLength, "width", where), inRange(r.Edge, 0, (r.Width-1)/2, "edge", where),
		inRange(r.Gap, 0, r.Width, "gap", where), inRange(r.Price, 0, mostMoney, "price", where))
}

func checkHide(h Hide) error {
	where := "hide " + string(h.ID)
	if h.Area <= 0 || h.Area > 100*unit.SquareMetre || !(h.Usable > 0 && h.Usable <= 1) {
		return rule(ruleRange, "area or usable part is out of range").At(where)
	}
	if err := first(inRange(h.Price, 0, mostMoney, "price", where),
		inRange(h.OutlineError, 0, mostOutlineError, "outline error", where)); err != nil {
		return err
	}
	if h.Photo != "" {
		if err := h.Photo.check(where + ", photo"); err != nil {
			return err
		}
	}
	if h.Outline.Drawn() {
		if err := h.Outline.check(where + ", outline"); err != nil {
			return err
		}
	}
	return checkDrawn(h, where)
}

// checkDrawn holds what is drawn on a hide to the rules.
func checkDrawn(h Hide, where string) error {
	for i, z := range h.Zones {
		at := fmt.Sprintf("%s, zone %d", where, i+1)
		if err := first(z.Shape.check(at), oneOf(z.Grade, Grades(), at+", grade")); err != nil {
			return err
		}
	}
	for i, d := range h.Headings {
		if err := within(d.Angle, -mostAngle, mostAngle, "angle", fmt.Sprintf("%s, heading %d", where, i+1)); err != nil {
			return err
		}
	}
	if err := unique("mark of "+where, h.Marks, func(m Mark) string { return m.ID }); err != nil {
		return err
	}
	for _, m := range h.Marks {
		if err := checkMark(m, where); err != nil {
			return err
		}
	}
	return checkShapes(h.KeepOuts, where, "keep-out")
}

func checkMark(m Mark, where string) error {
	where += ", mark " + m.ID
	if m.ID == "" {
		return rule(ruleID, "the ID is missing").At(where)
	}
	return first(oneOf(m.Kind, MarkKinds(), where+", kind"), m.Shape.check(where),
		oneOf(m.Grade, append([]string{""}, Grades()...), where+", grade"))
}

// checkLayout holds a kept layout to the rules of names and numbers. Whether
// the pieces lie free of each other and of marks is worked out from it.
func (b *Build) checkLayout(l Layout) error {
	where := "layout " + string(l.ID)
	if l.Roll != "" && b.Roll(l.Roll) == nil {
		return at(missing("roll", l.Roll), where+", roll")
	}
	type copyOf struct {
		piece PieceID
		copy  int
	}
	seen := map[copyOf]bool{}
	for i, p := range l.Placed {
		at := fmt.Sprintf("%s, line %d", where, i+1)
		if err := b.checkPlaced(l, p, at); err != nil {
			return err
		}
		if key := (copyOf{p.Piece, p.Copy}); seen[key] {
			return rule(ruleID, "copy %d of piece %s lies twice", p.Copy, p.Piece).At(at)
		} else {
			seen[key] = true
		}
	}
	return needText(l.Material, where+", material")
}

func (b *Build) checkPlaced(l Layout, p Placed, where string) error {
	piece, hide := b.Piece(p.Piece), b.Hide(p.Hide)
	switch {
	case piece == nil:
		return at(missing("trim piece", p.Piece), where)
	case piece.Material != l.Material:
		return rule(ruleOrder, "piece %s is of %s", p.Piece, piece.Material).At(where)
	case p.Copy < 0 || p.Copy >= piece.Quantity:
		return rule(ruleRange, "piece %s has no copy %d", p.Piece, p.Copy).At(where)
	case l.Roll == "" && hide == nil:
		return at(missing("hide", p.Hide), where)
	case l.Roll == "" && hide.Material != l.Material:
		return rule(ruleOrder, "hide %s is of %s", p.Hide, hide.Material).At(where)
	case l.Roll != "" && p.Hide != "":
		return rule(ruleOrder, "a piece on a roll lies on no hide").At(where)
	}
	far := mostLength.Mm()
	return first(within(p.X, -far, far*10, "x", where), within(p.Y, -far, far, "y", where), within(p.Rotation, -mostAngle, mostAngle, "angle", where))
}
