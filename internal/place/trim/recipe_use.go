package trim

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/web"
	stage "fettle/stage/trim"
	"fettle/unit"
)

// useRecipe makes pieces with patterns of what a recipe gives, through the slip.
func (p place) useRecipe(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.recipePage(r, f)
	if err != nil {
		return err
	}
	like := build.Piece{Material: f.Text("material", 1, 80), Grade: f.Choice("grade", build.Grades()...), Name: f.Text("for", 0, 60), Quantity: int(f.Int("times", 1, 100))}
	if f.Err() == nil && len(page.Pieces) == 0 {
		f.Fail("recipe", "gives no piece: fill in its measures")
	}
	var changes []build.Change
	if f.Err() == nil {
		if changes, err = page.pieces(like, build.PersonID(r.Person().Code)); err != nil {
			f.Fail("recipe", "gives no pattern: "+err.Error())
		}
	}
	desk.Holds(f, page.Build, "recipe", changes...)
	if f.Err() != nil {
		page.Wrong = f.Errors
		return r.Invalid(page.dressed(), showRecipe(page))
	}
	return p.desk.Propose(r, page.Base+"/slip", changes...)
}

// pieces are the changes that enter what a recipe gives: each piece with its
// pattern, and the seams between them.
func (page recipePage) pieces(like build.Piece, by build.PersonID) ([]build.Change, error) {
	next := page.Build.Clone()
	var changes []build.Change
	do := func(list ...build.Change) error {
		for _, c := range list {
			if err := c.Apply(&next); err != nil {
				return err
			}
		}
		changes = append(changes, list...)
		return nil
	}
	ids := map[string]build.PieceID{}
	for _, made := range page.Pieces {
		one := like
		one.ID = sheet{Build: &next}.nextPiece()
		ids[made.ID] = one.ID
		one.Name = strings.TrimSpace(like.Name + " " + made.Name)
		one.Quantity = like.Quantity * max(1, made.Quantity)
		if made.Arrow.Kind != "" {
			one.Axis = build.Axis{Angle: made.Arrow.Angle, Tolerance: stage.Tolerance}
		}
		own, err := stage.MadeOf(&next, one.ID, made)
		if err != nil {
			return nil, err
		}
		own.Day, own.By, own.Why = page.Today, by, page.Name+": "+page.measured()
		box := own.Cut.Polygon().Bounds()
		one.Width, one.Height = spotAt(box.Max.Sub(box.Min))[0], spotAt(box.Max.Sub(box.Min))[1]
		if err := do(&build.SetPiece{Piece: one}, &build.SetPattern{Pattern: own}); err != nil {
			return nil, err
		}
	}
	for _, made := range page.Seams {
		m := build.Seam{Name: strings.TrimSpace(like.Name + " " + made.Name), Kind: build.SeamKind(made.Kind), A: edgesIn(made.A, ids), B: edgesIn(made.B, ids), Times: like.Quantity, Pitch: 4 * unit.Millimetre}
		m.ID = build.SeamID(seamNoun().Next(&next))
		for _, x := range made.Match {
			m.Match = append(m.Match, build.Meeting{A: x.A, B: x.B})
		}
		if err := do(&build.SetSeam{Seam: m}); err != nil {
			return nil, err
		}
	}
	return changes, nil
}

func edgesIn(refs []stage.MadeEdge, ids map[string]build.PieceID) []build.EdgeOf {
	var list []build.EdgeOf
	for _, r := range refs {
		list = append(list, build.EdgeOf{Piece: ids[r.Piece], Edge: r.Edge})
	}
	return list
}

// measured is what was measured, in a line.
func (page recipePage) measured() string {
	var words []string
	for _, m := range page.Measures {
		if v := strings.TrimSpace(page.value("recipe", m.Name, "")); v != "" {
			words = append(words, fmt.Sprintf("%s %s", strings.ToLower(m.Label), v))
		}
	}
	text := strings.Join(words, ", ")
	return text[:min(len(text), 150)]
}

// sizeOfMade says how large a piece of a recipe is along its sewn line.
func sizeOfMade(p stage.MadePiece) string {
	low, high := p.Line[0], p.Line[0]
	for _, q := range p.Line {
		low.X, low.Y, high.X, high.Y = min(low.X, q.X), min(low.Y, q.Y), max(high.X, q.X), max(high.Y, q.Y)
	}
	return fmt.Sprintf("%d × %s, %.0f × %.0f mm", max(1, p.Quantity), p.Name, high.X-low.X, high.Y-low.Y)
}

func (page recipePage) grade() string {
	if g := page.value("recipe", "grade", ""); g != "" {
		return g
	}
	return "A"
}

func (page recipePage) times() string {
	if n := page.value("recipe", "times", ""); n != "" {
		return n
	}
	return "1"
}
