package trim

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/shapein"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/trim"
	"fettle/unit"
)

// revision is one way to revise a pattern: a form of its page.
type revision struct {
	Key  string
	read func(f *web.Form, page *patternPage, next *build.Pattern) []build.Change // changes beside the pattern
}

// revisions lists them; another is a line here and a form in the template.
func revisions() []revision {
	return []revision{{"edges", readEdges}, {"outline", readNewOutline}, {"drawn", readDrawn}, {"pleats", readPleats}, {"motif", readMotif}, {"clips", readClips}, {"label", readLabel}}
}

func (p place) reviseRoutes() []web.Route {
	at := "POST /b/{build}/trim/pattern/{piece}"
	list := []web.Route{
		{Pattern: at + "/twin", Who: web.Crew, Handle: p.twin},
		{Pattern: at + "/back", Who: web.Crew, Handle: p.patternBack},
	}
	for _, one := range revisions() {
		list = append(list, web.Route{Pattern: at + "/" + one.Key, Who: web.Crew, MaxBody: shapein.FileLimit, Handle: p.revise(one)})
	}
	return list
}

// revise takes one form of a pattern and lays the next revision on the slip.
func (p place) revise(one revision) func(r *web.Request) error {
	return func(r *web.Request) error {
		f, err := r.Form()
		if err != nil {
			return err
		}
		page, err := p.patternPage(r)
		if err != nil {
			return err
		}
		next := page.Pattern
		next.Piece, next.Revision = page.Piece.ID, page.Pattern.Revision+1
		next.Edges, next.Lines, next.Marks, next.Holes = slices.Clone(next.Edges), slices.Clone(next.Lines), slices.Clone(next.Marks), slices.Clone(next.Holes)
		page.acts = acts{Open: one.Key, typed: f.Raw, all: f.All}
		changes := one.read(f, &page, &next)
		if one.Key == "outline" && f.Raw("do") == "square" && f.Err() == nil {
			return p.desk.Page(r, page.dressed(), page.show())
		}
		if page.Bare {
			next.Why = f.Text("why", 0, 200)
		} else {
			next.Why = f.Text("why", 1, 200)
		}
		next.Day, next.By = page.Today, build.PersonID(r.Person().Code)
		if f.Err() == nil {
			if err := stage.WorkCut(page.Build, &next); err != nil {
				f.Fail("why", "cannot be kept: no cut line holds this: "+err.Error())
			}
		}
		changes = append(changes, &build.SetPattern{Pattern: next})
		desk.Holds(f, page.Build, "why", changes...)
		if f.Err() != nil {
			page.Wrong = f.Errors
			return r.Invalid(page.dressed(), page.show())
		}
		return p.desk.Propose(r, page.Base+"/slip", changes...)
	}
}

// readEdges reads names, seams and allowances of the edges. What seams call an
// edge is renamed with it.
func readEdges(f *web.Form, page *patternPage, next *build.Pattern) []build.Change {
	renamed := map[string]string{}
	for i := range next.Edges {
		e, old := &next.Edges[i], page.Pattern.Edges[i].Name
		if e.Name = f.Text("name-"+old, 1, 40); e.Name != old {
			renamed[old] = e.Name
		}
		e.Seam = build.SeamKind(f.Choice("seam-"+old, kindWords()...))
		e.Allowance = maybe(f, "allow-"+old, 0, 200)
	}
	return page.Build.RenameEdges(next.Piece, renamed)
}

// readNewOutline reads another sewn line, or shows what squaring would move.
func readNewOutline(f *web.Form, page *patternPage, next *build.Pattern) []build.Change {
	d := typedOutline(f)
	if f.Err() != nil {
		return nil
	}
	if f.Raw("do") == "square" {
		s, err := d.square()
		if err != nil {
			f.Fail("outline", "cannot be squared: "+err.Error())
			return nil
		}
		page.Squared = &s
		page.typed = func(name string) string {
			if name == "outline" {
				return s.Is.text()
			}
			return f.Raw(name)
		}
		return nil
	}
	*next = stage.Drawn(*next, d.Points, d.Starts)
	next.Source = build.PatternSource{Kind: build.ByHand}
	if d.File != "" {
		next.Source = build.PatternSource{Kind: build.FromFile, File: d.File}
	}
	for i, h := range d.Holes {
		low := outlineLow(d.Points)
		ring := make(build.Ring, len(h))
		for k, q := range h {
			ring[k] = spotAt(q.Sub(low))
		}
		next.Lines = append(next.Lines, build.PatternLine{Name: fmt.Sprintf("hole %d", i+1), Kind: "cut", Points: ring, Closed: true})
	}
	return nil
}

// readDrawn reads lines and marks in numbers.
func readDrawn(f *web.Form, _ *patternPage, next *build.Pattern) []build.Change {
	var err error
	if next.Lines, next.Marks, err = readDrawnOn(f.Raw("drawn")); err != nil {
		f.Fail("drawn", err.Error())
	}
	return nil
}

// readPleats reads what a sewn line takes up, from the test piece where it is
// given, and lays lines at equal distances where a number of them is.
func readPleats(f *web.Form, _ *patternPage, next *build.Pattern) []build.Change {
	next.Loss = maybe(f, "loss", 0, 50)
	if strings.TrimSpace(f.Raw("flat")+f.Raw("sewn")+f.Raw("tested")) != "" {
		flat, sewn, lines := length(f, "flat", 1, 10_000), length(f, "sewn", 1, 10_000), f.Int("tested", 1, 1000)
		if f.Err() == nil {
			loss, err := stage.TestedLoss(flat.Mm(), sewn.Mm(), int(lines))
			if err != nil {
				f.Fail("flat", "does not come out: "+err.Error())
			}
			next.Loss = unit.Length(loss*1000+0.5) * unit.Millimetre / 1000
		}
	}
	if strings.TrimSpace(f.Raw("count")) == "" {
		return nil
	}
	count, angle := int(f.Int("count", 0, 200)), 0.0
	if strings.TrimSpace(f.Raw("angle")) != "" {
		angle = float64(f.Decimal("angle", 1, -3600, 3600)) / 10
	}
	next.Lines = slices.DeleteFunc(next.Lines, func(l build.PatternLine) bool { return l.Kind == "pleat" })
	next.Lines = append(next.Lines, stage.EvenPleats(*next, count, angle)...)
	return nil
}

// readClips puts clip holes along edges, in the place of those there are.
func readClips(f *web.Form, page *patternPage, next *build.Pattern) []build.Change {
	next.Holes = nil
	if f.Raw("do") == "none" {
		return nil
	}
	clips := stage.Clips{Edges: f.All("edge"), Pitch: length(f, "pitch", 10, 2000).Mm(), Inset: length(f, "inset", 1, 500).Mm(), Diameter: length(f, "diameter", 1, 60).Mm(), Off: maybe(f, "off", 0, 500).Mm()}
	if len(clips.Edges) == 0 {
		f.Fail("edge", "is empty: tick the edges that get clips")
	}
	if f.Err() != nil {
		return nil
	}
	holes, left, err := stage.HolesAlong(page.Build, *next, clips)
	switch {
	case err != nil:
		f.Fail("pitch", "does not hold: "+err.Error())
	case left > 0:
		f.Fail("inset", fmt.Sprintf("leaves no room for %d of %d holes: less of it, or other edges", left, left+len(holes)))
	}
	next.Holes = holes
	return nil
}

// readLabel reads the words on the paper, and the arrow, which is the piece's.
func readLabel(f *web.Form, page *patternPage, next *build.Pattern) []build.Change {
	next.Label = f.Text("label", 0, 120)
	piece := page.Piece
	piece.Axis = build.Axis{}
	if strings.TrimSpace(f.Raw("axis")) != "" {
		piece.Axis = build.Axis{Angle: float64(f.Decimal("axis", 1, -3600, 3600)) / 10, Tolerance: float64(f.Decimal("tolerance", 1, 1, 900)) / 10}
	}
	if piece.Axis == page.Piece.Axis {
		return nil
	}
	return []build.Change{&build.SetPiece{Piece: piece}}
}

// twin makes the mirror image a piece of its own, with a pattern of its own.
func (p place) twin(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.patternPage(r)
	if err != nil {
		return err
	}
	piece := page.Piece
	piece.ID, piece.Name, piece.Pair = build.PieceID(strings.ToUpper(f.Text("id", 1, 12))), f.Text("name", 1, 80), page.Piece.ID
	if page.Build.Piece(piece.ID) != nil {
		f.Fail("id", "is taken: another piece has it")
	}
	if page.Piece.Handed || page.Piece.Pair != "" {
		f.Fail("id", "is not needed: left and right of this piece are there already")
	}
	if piece.Axis.Known() {
		piece.Axis.Angle = 180 - piece.Axis.Angle
	}
	own := stage.TwinOf(page.Pattern, piece.ID)
	own.Day, own.By = page.Today, build.PersonID(r.Person().Code)
	if f.Err() == nil {
		if err := stage.WorkCut(page.Build, &own); err != nil {
			f.Fail("id", "has no cut line: "+err.Error())
		}
	}
	mate := page.Piece
	mate.Pair = piece.ID
	changes := []build.Change{&build.SetPiece{Piece: piece}, &build.SetPiece{Piece: mate}, &build.SetPattern{Pattern: own}}
	desk.Holds(f, page.Build, "id", changes...)
	if f.Err() != nil {
		page.acts = acts{Open: "twin", Wrong: f.Errors, typed: f.Raw}
		return r.Invalid(page.dressed(), page.show())
	}
	return p.desk.Propose(r, page.Base+"/slip", changes...)
}

// patternBack takes the last revision back, through the slip.
func (p place) patternBack(r *web.Request) error {
	page, err := p.patternPage(r)
	if err != nil {
		return err
	}
	return p.desk.Propose(r, page.Base+"/slip", &build.DropPattern{Piece: page.Piece.ID})
}

// edgeTicks are the edges that clips can go along.
func (page patternPage) edgeTicks() []field.Option {
	var list []field.Option
	var ticked []string
	if page.Open == "clips" && page.all != nil {
		ticked = page.all("edge")
	}
	for _, e := range page.Pattern.Edges {
		list = append(list, field.Option{Value: e.Name, Label: e.Name, Picked: slices.Contains(ticked, e.Name)})
	}
	return list
}

// lossHint says what a test piece of this material has shown.
func (page patternPage) lossHint() string {
	if c := page.Build.CoverOf(page.Piece.Material, ""); c != nil && c.Loss > 0 {
		return fmt.Sprintf("%s measured: %s mm", c.ID, short(c.Loss.Mm()))
	}
	return "no test piece of this material is noted"
}
