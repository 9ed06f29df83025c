package nest

import (
	"fmt"
	"math"

	"fettle/fault"
	"fettle/geom"
)

// counts holds every placement to a piece, a copy and a sheet that there are,
// and every copy to one place.
func (c *checker) counts() error {
	said := map[[2]int]bool{}
	for i, at := range c.placements {
		if at.Piece < 0 || at.Piece >= len(c.p.Pieces) {
			return fault.New(fault.Invalid, "there is no piece %d", at.Piece).At(counted("placement", i))
		}
		n := max(c.p.Pieces[at.Piece].Count, 1)
		switch {
		case at.Copy < 0 || at.Copy >= n:
			return c.wrong(i, "only %d are wanted", n)
		case said[[2]int{at.Piece, at.Copy}]:
			return c.wrong(i, "it is placed twice")
		case at.Container < 0 || at.Container >= len(c.p.Containers):
			return c.wrong(i, "there is no material %d", at.Container)
		case at.Sheet < 0 || at.Sheet >= max(c.p.Containers[at.Container].Count, 1):
			return c.wrong(i, "there is no sheet %d of material %s", at.Sheet+1, c.p.Containers[at.Container].ID)
		}
		said[[2]int{at.Piece, at.Copy}] = true
	}
	return nil
}

// missing names the first copy without a place.
func missing(p Problem, placements []Placement) error {
	said := map[[2]int]bool{}
	for _, at := range placements {
		said[[2]int{at.Piece, at.Copy}] = true
	}
	for i, piece := range p.Pieces {
		for k := range max(piece.Count, 1) {
			if !said[[2]int{i, k}] {
				return fault.New(fault.Invalid, "it lies nowhere").At(copyName(p, i, k))
			}
		}
	}
	return nil
}

// turned is how far apart two angles may be and still be the same, degrees.
const turned = 1e-9

// turns holds every copy that is not locked to the angles and the face that
// its piece allows.
func (c *checker) turns() error {
	for i, at := range c.placements {
		piece := c.p.Pieces[at.Piece]
		if math.IsNaN(at.Rotation) || math.IsInf(at.Rotation, 0) {
			return c.wrong(i, "it is turned by %g", at.Rotation)
		}
		if at.Copy < len(piece.Locked) {
			continue
		}
		switch {
		case at.Mirrored && !piece.Mirror && !piece.FaceDown:
			return c.wrong(i, "it is mirrored, which the piece does not allow")
		case !at.Mirrored && piece.FaceDown:
			return c.wrong(i, "it is not mirrored, and lies face down in any case")
		}
		if !piece.Free && !allowed(piece.Rotations, at.Rotation) {
			return c.wrong(i, "it is turned by %g degrees, which the piece does not allow", at.Rotation)
		}
	}
	return nil
}

func allowed(list []float64, angle float64) bool {
	if list == nil {
		list = []float64{0}
	}
	for _, a := range list {
		if math.Abs(math.Remainder(a-angle, 360)) <= turned {
			return true
		}
	}
	return false
}

// locks holds locked copies to their places.
func (c *checker) locks() error {
	placed := map[[2]int]Placement{}
	for i, at := range c.placements {
		piece := c.p.Pieces[at.Piece]
		placed[[2]int{at.Piece, at.Copy}] = at
		if at.Copy >= len(piece.Locked) {
			continue
		}
		want := piece.Locked[at.Copy]
		want.Piece, want.Copy = at.Piece, at.Copy
		if at != want {
			return c.wrong(i, "it is locked at %g, %g on %s, turned by %g degrees, and lies elsewhere", want.X, want.Y, c.sheetName(want), want.Rotation)
		}
	}
	for i, piece := range c.p.Pieces {
		for k := range piece.Locked {
			if _, ok := placed[[2]int{i, k}]; !ok {
				return fault.New(fault.Invalid, "it is locked, and lies nowhere").At(copyName(*c.p, i, k))
			}
		}
	}
	return nil
}

// together holds mates (copy by copy) and groups to one sheet.
func (c *checker) together() error {
	first := map[string]int{}
	for i, at := range c.placements {
		piece := c.p.Pieces[at.Piece]
		var bonds []string
		if piece.Group != "" {
			bonds = append(bonds, "group "+piece.Group)
		}
		if a, b := piece.ID, piece.Pair; b != "" {
			bonds = append(bonds, fmt.Sprintf("pair of %q and %q, copy %d", min(a, b), max(a, b), at.Copy+1))
		}
		for _, bond := range bonds {
			j, ok := first[bond]
			if !ok {
				first[bond] = i
				continue
			}
			if o := c.placements[j]; o.Container != at.Container || o.Sheet != at.Sheet {
				return c.wrong(i, "it lies on %s, and %s on %s: the %s is on two sheets", c.sheetName(at), c.name(j), c.sheetName(o), bond)
			}
		}
	}
	return nil
}

// grain holds tight directions to the heading nearest to the centroid of the
// piece where it lies.
func (c *checker) grain() error {
	for i, at := range c.placements {
		axis := c.p.Pieces[at.Piece].Axis
		if axis == nil || at.Copy < len(c.p.Pieces[at.Piece].Locked) {
			continue
		}
		lies := axis.Angle
		if at.Mirrored {
			lies = 180 - lies
		}
		heading := 0.0
		centre, best := c.lying[i].centroid, math.Inf(1)
		for _, h := range c.p.Containers[at.Container].Grain {
			if d := h.At.Distance(centre); d < best {
				heading, best = h.Angle, d
			}
		}
		full := 180.0
		if axis.OneWay {
			full = 360
		}
		if off := math.Abs(math.Remainder(lies+at.Rotation-heading, full)); !(off <= axis.Tolerance+turned) {
			return c.wrong(i, "its tight direction strays by %.6g degrees from that of the material at %.6g, %.6g, at most %g", off, centre.X, centre.Y, axis.Tolerance)
		}
	}
	return nil
}

// patterns holds every copy that is not locked to the pattern of its material:
// along each axis that its piece keeps to, the anchor lies within what rounding
// moves of a place where the pattern begins.
func (c *checker) patterns() error {
	for i, at := range c.placements {
		piece := c.p.Pieces[at.Piece]
		m, repeat := piece.Match, c.p.Containers[at.Container].Repeat
		if m == nil || at.Copy < len(piece.Locked) {
			continue
		}
		anchor := at.Lay(geom.Polygon{Outer: []geom.Point{m.Anchor}}).Outer[0]
		for _, axis := range []struct {
			name                string
			held                bool
			lies, phase, repeat float64
		}{{"x", m.X, anchor.X, repeat.Phase.X, repeat.X}, {"y", m.Y, anchor.Y, repeat.Phase.Y, repeat.Y}} {
			if !axis.held || axis.repeat == 0 {
				continue
			}
			if off := math.Abs(math.Remainder(axis.lies-axis.phase, axis.repeat)); !(off*c.perUnit <= slack) {
				return c.wrong(i, "its anchor at %.6g, %.6g lies %.6g along %s from where the pattern comes again, every %g", anchor.X, anchor.Y, off, axis.name, axis.repeat)
			}
		}
	}
	return nil
}

func (c *checker) wrong(i int, format string, args ...any) error {
	return fault.New(fault.Invalid, format, args...).At(c.name(i))
}

func (c *checker) name(i int) string {
	return copyName(*c.p, c.placements[i].Piece, c.placements[i].Copy)
}

func copyName(p Problem, piece, copy int) string {
	return fmt.Sprintf("piece %s, copy %d", p.Pieces[piece].ID, copy+1)
}

func (c *checker) sheetName(at Placement) string {
	if at.Container < 0 || at.Container >= len(c.p.Containers) {
		return fmt.Sprintf("material %d", at.Container)
	}
	m := c.p.Containers[at.Container]
	if m.Count <= 1 {
		return "material " + m.ID
	}
	return fmt.Sprintf("material %s, sheet %d", m.ID, at.Sheet+1)
}

func counted(what string, i int) string { return fmt.Sprintf("%s %d", what, i+1) }
