package nest

import (
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Report is what Check measured of a layout without fault.
type Report struct {
	SmallestGap float64 // least distance between two pieces, or of a piece to what a margin keeps it clear of; +Inf where there is nothing to measure
	Nearest     string  // what lies so near each other, in words
	Length      float64 // of a Strip: largest x any piece reaches, plus the margin
	Missing     int     // copies without a place
	Step        float64 // of the grid the layout was judged on, in the problem's unit
}

// Check recomputes from the raw problem that a layout can be cut: every copy
// lies somewhere once (in a Knapsack, at most once), turned and mirrored as
// its piece allows, locked copies where they are locked; inside its material,
// clear of holes, keep-outs and zones too poor for it, by the margin; no two
// pieces overlap or lie nearer than clearance and kerf; mates and groups lie
// on one sheet; tight directions follow the grain at the centroid of the
// piece's outer ring; anchors lie on the pattern.
//
// Places are rounded to a grid of one millionth of the unit (finer where all
// is smaller than the unit). On the grid overlap and containment are decided
// without rounding, and touching is allowed; distances are measured in
// float64 and may fall short by two steps, which is what the rounding moves.
// It shares no code with the search. A fault is of kind Invalid, names the
// copy, and says what is wrong with it and about where.
func Check(p Problem, placements []Placement) (Report, error) {
	r, err := CheckPart(p, placements)
	if err == nil && p.Kind != Knapsack && r.Missing > 0 {
		return r, missing(p, placements)
	}
	return r, err
}

// CheckPart is Check for a layout that need not hold every copy.
func CheckPart(p Problem, placements []Placement) (Report, error) {
	c := checker{p: &p, placements: placements, nearest: math.Inf(1)}
	for _, rule := range []func() error{c.shapes, c.counts, c.turns, c.locks, c.place, c.inside, c.zones, c.apart, c.together, c.grain, c.patterns} {
		if err := rule(); err != nil {
			return Report{}, err
		}
	}
	r := Report{SmallestGap: c.nearest / c.perUnit, Nearest: c.between, Length: c.length, Step: 2 / c.perUnit}
	for _, piece := range p.Pieces {
		r.Missing += max(piece.Count, 1)
	}
	r.Missing -= len(placements)
	return r, nil
}

// checker holds the layout as it lies on the grid. A step of the grid is two,
// so that the middle between two points of it is on it as well.
type checker struct {
	p          *Problem
	placements []Placement
	perUnit    float64
	lying      []area   // by placement
	material   []ground // by container
	nearest    float64  // smallest gap, in grid coordinates
	between    string
	length     float64
}

// slack is what rounding to the grid may take from a distance: two steps.
const slack = 4

// shapes holds every polygon of the problem to the rules of polygons.
func (c *checker) shapes() error {
	for _, piece := range c.p.Pieces {
		where := "piece " + piece.ID
		if err := piece.Shape.Check(); err != nil {
			return fault.Within(err, where)
		}
		if err := zonesCheck(piece.Zones); err != nil {
			return fault.Within(err, where)
		}
	}
	for _, m := range c.p.Containers {
		where := "material " + m.ID
		if c.p.Kind == Strip {
			if !(m.Height > 0 && m.Height <= farthest) {
				return fault.New(fault.Invalid, "a roll %g wide", m.Height).At(where)
			}
		} else if err := m.Outline.Check(); err != nil {
			return fault.Within(err, where)
		}
		if err := zonesCheck(m.Zones); err != nil {
			return fault.Within(err, where)
		}
		for i, k := range m.KeepOut {
			if err := k.Check(); err != nil {
				return fault.Within(err, where+", "+counted("keep-out", i))
			}
		}
		if !(m.Margin >= 0 && m.Margin <= farthest) {
			return fault.New(fault.Invalid, "a margin of %g", m.Margin).At(where)
		}
		if r := m.Repeat; !(r.X >= 0 && r.Y >= 0 && max(r.X, r.Y, math.Abs(r.Phase.X), math.Abs(r.Phase.Y)) <= farthest) {
			return fault.New(fault.Invalid, "a pattern that comes again after %g and %g from %g, %g", r.X, r.Y, r.Phase.X, r.Phase.Y).At(where)
		}
	}
	if !(c.p.Clearance >= 0 && c.p.Kerf >= 0 && c.p.Clearance+c.p.Kerf <= farthest) {
		return fault.New(fault.Invalid, "a clearance of %g and a kerf of %g", c.p.Clearance, c.p.Kerf)
	}
	return nil
}

func zonesCheck(zones []Zone) error {
	for i, z := range zones {
		if err := z.Shape.Check(); err != nil {
			return fault.Within(err, counted("zone", i))
		}
		if z.Quality < 0 {
			return fault.New(fault.Invalid, "a quality of %d: 0 is a hole, more is better", z.Quality).At(counted("zone", i))
		}
	}
	return nil
}

// farthest is how large a coordinate may be.
const farthest = 1e7

// near keeps the smallest gap; at is in grid coordinates.
func (c *checker) near(d float64, a, b string) {
	if d < c.nearest {
		c.nearest, c.between = d, a+" and "+b
	}
}

// spot is a place on the grid in the words of the file.
func (c *checker) spot(p geom.GridPoint) (x, y float64) {
	q := p.Point(c.perUnit)
	return q.X, q.Y
}
