package nest

import (
	"cmp"
	"math"
	"slices"

	"fettle/geom"
)

// How a jigsaw is looked for.
const (
	jigsawShare   = 0.5  // of the budget
	jigsawSpare   = 0.02 // length to spare, which compaction then takes
	jigsawBalance = 1e-6 // what the edges of one direction may leave over, as a share of all edges
)

// jigsaw says whether the pieces may fill the strip without a gap. In a tiling
// each edge lies against others that run the other way, or against the border,
// so that for every direction as much runs to as fro. It is asked only where no
// piece may be turned.
func jigsaw(p *Problem) bool {
	if p.Clearance+p.Kerf+p.Containers[0].Margin > 0 {
		return false
	}
	var edges []geom.Point
	all := 0.0
	for i := range p.Pieces {
		q := &p.Pieces[i]
		if q.Free || len(q.faces()) > 1 || len(q.Rotations) > 1 {
			return false
		}
		at := Placement{Mirrored: q.FaceDown}
		if len(q.Rotations) == 1 {
			at.Rotation = q.Rotations[0]
		}
		for _, r := range at.Lay(q.Shape).Rings() {
			for k, a := range r {
				e := r[(k+1)%len(r)].Sub(a).Scale(float64(max(q.Count, 1)))
				edges = append(edges, e)
				all += math.Hypot(e.X, e.Y)
			}
		}
	}
	return balanced(edges, jigsawBalance*all)
}

// balanced says whether what runs one way is as long as what runs the other,
// for every direction.
func balanced(edges []geom.Point, most float64) bool {
	slope := func(e geom.Point) float64 {
		a := math.Mod(math.Atan2(e.Y, e.X)+math.Pi, math.Pi)
		if math.Pi-a < jigsawBalance {
			return 0
		}
		return a
	}
	slices.SortFunc(edges, func(a, b geom.Point) int { return cmp.Compare(slope(a), slope(b)) })
	var sum geom.Point
	for i, e := range edges {
		if i > 0 && slope(e)-slope(edges[i-1]) > jigsawBalance {
			sum = geom.Point{}
		}
		sum = sum.Add(e)
		last := i+1 == len(edges) || slope(edges[i+1])-slope(e) > jigsawBalance
		if last && math.Hypot(sum.X, sum.Y) > most {
			return false
		}
	}
	return true
}

// jump looks for a layout of nearly the least length there can be at all, from
// places drawn at random.
func (s *search) jump() {
	mends := s.mends
	s.mends = nil // what is longer is no help
	s.until = int(jigsawShare * float64(s.budget()))
	s.now.bounds = s.strip(s.shortest * (1 + jigsawSpare))
	for i := range s.now.items {
		if at, ok := s.lead.sample(i, s.lead.anywhere(i)); ok && !s.now.fixed[i] {
			s.now.put(i, at)
		}
	}
	s.now.forget()
	s.lead.all()
	for !s.over() && !(s.separate(exploring) && s.draw()) {
		s.giveUp()
		s.escape()
	}
	s.failed, s.mends = s.failed[:0], mends
}
