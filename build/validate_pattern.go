package build

import (
	"fmt"
	"slices"

	"fettle/unit"
)

// Bounds of rule 3 for surfaces and patterns.
const (
	mostVertices  = 20_000_000
	mostScale     = 100_000.0 // mm to a unit
	mostAllowance = 200 * unit.Millimetre
	mostLoss      = 50 * unit.Millimetre
	mostHole      = 100 * unit.Millimetre
	mostRepairs   = 100
)

// uniqueSewn applies rule 1 to surfaces, patterns, seams and what goes with them.
func (b *Build) uniqueSewn() error {
	return first(
		unique("surface", b.Surfaces, func(s Surface) string { return string(s.ID) }),
		unique("pattern", b.Patterns, func(p Pattern) string { return fmt.Sprintf("%s, revision %d", p.Piece, p.Revision) }),
		unique("seam", b.Seams, func(s Seam) string { return string(s.ID) }),
		unique("thread", b.Threads, func(t Thread) string { return string(t.ID) }),
		unique("piping cord", b.Cords, func(c Cord) string { return string(c.ID) }),
		unique("cover", b.Covers, func(c Cover) string { return string(c.ID) }),
		unique("foam", b.Foams, func(f Foam) string { return string(f.ID) }),
		unique("board", b.Boards, func(d Board) string { return string(d.ID) }),
		unique("deadener", b.Deadening, func(d Deadener) string { return string(d.ID) }),
		unique("glued joint", b.Glues, func(g Glue) string { return string(g.ID) }),
	)
}

// checkPatterns holds surfaces and patterns to the rules.
func (b *Build) checkPatterns() error {
	for _, s := range b.Surfaces {
		if err := b.checkMesh(s); err != nil {
			return err
		}
	}
	last := map[PieceID]int{}
	for _, p := range b.Patterns {
		if err := b.checkPattern(p, last[p.Piece]); err != nil {
			return err
		}
		last[p.Piece] = p.Revision
	}
	return nil
}

func (b *Build) checkMesh(s Surface) error {
	where := "surface " + string(s.ID)
	if s.Panel != "" && b.Panel(s.Panel) == nil {
		return at(missing("panel", s.Panel), where+", panel")
	}
	return first(needText(s.Name, where+", name"), s.Scan.check(where+", scan"), within(s.Scale, 1e-6, mostScale, "scale", where),
		inRange(s.Vertices, 3, mostVertices, "the number of vertices", where), inRange(s.Faces, 1, mostVertices, "the number of faces", where),
		inRange(s.Area, 0, 1000*unit.SquareMetre, "area", where), inRange(len(s.Repairs), 0, mostRepairs, "the number of repairs", where),
		oneOf(s.Use, []SurfaceUse{ForTrim, ForMetal}, where+", use"))
}

// checkPattern holds a revision to the rules; before is the one it follows.
func (b *Build) checkPattern(p Pattern, before int) error {
	where := "pattern of " + string(p.Piece)
	switch {
	case b.Piece(p.Piece) == nil:
		return at(missing("trim piece", p.Piece), where)
	case p.Revision != before+1:
		return rule(ruleOrder, "revision %d comes next, not %d", before+1, p.Revision).At(where + ", revision")
	case p.Revision > 1 && p.Why == "":
		return rule(ruleText, "must say why it is revised").At(where + ", why")
	}
	return first(Shape{Outer: p.Sewn}.check(where+", sewn"), p.Cut.check(where+", cut"), p.checkEdges(where), b.checkOn(p, where),
		inRange(p.Loss, 0, mostLoss, "pleat loss", where), b.checkSource(p.Source, where+", source"))
}

// checkEdges holds the edges to the rules: each has a name of its own and
// begins after the one before.
func (p Pattern) checkEdges(where string) error {
	if len(p.Edges) == 0 {
		return rule(ruleExists, "the sewn line has no edge").At(where + ", edges")
	}
	least := 0
	for i, e := range p.Edges {
		at := fmt.Sprintf("%s, edge %d", where, i+1)
		if err := first(needText(e.Name, at+", name"), inRange(e.First, least, len(p.Sewn)-1, "its first point", at),
			oneOf(e.Seam, SeamKinds(), at+", seam"), inRange(e.Allowance, 0, mostAllowance, "allowance", at)); err != nil {
			return err
		}
		if (e.Seam == Raw || e.Seam == Butt) && e.Allowance != 0 {
			return rule(ruleOrder, "a %s edge is cut on the line: it has no allowance", e.Seam).At(at)
		}
		if slices.ContainsFunc(p.Edges[:i], func(o PatternEdge) bool { return o.Name == e.Name }) {
			return rule(ruleID, "another edge is called %q", e.Name).At(at)
		}
		least = e.First + 1
	}
	return nil
}

// checkOn holds what is drawn on the piece to the rules.
func (b *Build) checkOn(p Pattern, where string) error {
	if n := len(p.Marks) + len(p.Lines) + len(p.Holes); n > mostPoints {
		return rule(ruleRange, "%d things are drawn on it, at most %d", n, mostPoints).At(where)
	}
	for i, m := range p.Marks {
		at := fmt.Sprintf("%s, mark %d", where, i+1)
		if err := first(oneOf(m.Kind, MarkPointKinds(), at+", kind"), checkSpot(m.At, at)); err != nil {
			return err
		}
	}
	for i, l := range p.Lines {
		at := fmt.Sprintf("%s, line %d", where, i+1)
		if err := first(oneOf(l.Kind, LineKinds(), at+", kind"), inRange(len(l.Points), 2, mostPoints, "the number of points", at), inRange(l.Pitch, 0, mostPitch, "pitch", at), b.threadThere(l.Thread, at)); err != nil {
			return err
		}
		for _, s := range l.Points {
			if err := checkSpot(s, at); err != nil {
				return err
			}
		}
	}
	for i, h := range p.Holes {
		at := fmt.Sprintf("%s, clip hole %d", where, i+1)
		if err := first(inRange(h.Diameter, 1, mostHole, "diameter", at), checkSpot(h.At, at)); err != nil {
			return err
		}
	}
	return nil
}

func checkSpot(s Spot, where string) error {
	return first(inRange(s[0], -mostLength, mostLength, "x", where), inRange(s[1], -mostLength, mostLength, "y", where))
}

func (b *Build) checkSource(s PatternSource, where string) error {
	if err := first(oneOf(s.Kind, SourceKinds(), where+", kind"), inRange(s.Part, 0, mostCount, "part", where)); err != nil {
		return err
	}
	switch s.Kind {
	case FromSurface:
		if b.Surface(s.Surface) == nil {
			return at(missing("surface", s.Surface), where)
		}
		return s.Scan.check(where + ", scan")
	case FromPhoto:
		return s.Photo.check(where + ", photo")
	case FromFile:
		return needText(s.File, where+", file")
	}
	return nil
}
