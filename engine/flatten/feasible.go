package flatten

import (
	"cmp"
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom/mesh"
)

// Verdict is what an estimate says of a surface and a material.
type Verdict uint8

// What an estimate says. Close is within a fifth either way of what the
// material bears: only the material pass tells.
const (
	Bears Verdict = iota
	Close
	Fails
)

// closeBy is the share of what is allowed that an estimate may be off by; on
// caps, tubes and a cushion it was within a tenth.
const closeBy = 0.2

// Estimate is what a surface asks of a material, before anything is laid flat.
// Ranges are the most mounting stretch over the least, less one.
type Estimate struct {
	Domed, Saddled float64 // Gauss curvature within the rim by sign, radians
	Round          float64 // range for a round piece of that curvature: a ÷ sin a, cos a = 1 − Ω ÷ 2π
	Long           float64 // range of the map that keeps angles; for a tube (R + r) ÷ (R − r)
	Needed         float64 // the lesser
	Allowed        float64 // (1 + tension) ÷ (1 − squeeze), means of both directions; of a long piece with a free grain the greater tension
	Relief         float64 // radians of curvature that darts must take: Ω less what a round piece of the range allowed carries
	Verdict        Verdict
}

// EstimateOf works out what range of stretch a surface needs, once it is cut as
// asked, and compares it with what the material allows. Holes count as open
// edges, whatever is made of them. It costs one linear system. Ω is the greater
// of the curvature by sign, which a round patch would have to spread
// [Milnor1969]; a long piece needs less than that, and not more than the map
// that keeps angles has, whose log scale u solves Δu = K with 0 at the rim.
// Without a material nothing is allowed.
func EstimateOf(p Problem) (Estimate, error) {
	if p.Material != nil {
		if err := p.Material.Validate(); err != nil {
			return Estimate{}, fault.Within(err, "material")
		}
	}
	d, err := open(p)
	if err != nil {
		return Estimate{}, err
	}
	s, err := newSheet(d.mesh)
	if err != nil {
		return Estimate{}, err
	}
	var stats Stats
	l, err := newLaplace(s, d.border.corners, &stats)
	if err != nil {
		return Estimate{}, err
	}
	var e Estimate
	asked := defects(s, d.border.corners)
	for v, row := range l.inner {
		if row == mesh.None {
			asked[v] = 0
		}
		e.Domed, e.Saddled = e.Domed+max(0, asked[v]), e.Saddled+max(0, -asked[v])
	}
	omega := max(e.Domed, e.Saddled)
	e.Round, e.Long = roundRange(omega), math.Expm1(s.spread(l.solve(asked, &stats)))
	e.Needed = min(e.Round, e.Long)
	if p.Material != nil {
		e.Allowed = p.Material.allows(e.Long < e.Round && p.Grain.From == p.Grain.To)
	}
	if e.Needed > 0 && e.Needed == e.Round {
		e.Relief = max(0, omega-roundCurvature(e.Allowed))
	} else if e.Long > e.Allowed {
		e.Relief = omega * (1 - math.Log1p(e.Allowed)/math.Log1p(e.Long))
	}
	switch {
	case e.Needed <= (1-closeBy)*e.Allowed:
		e.Verdict = Bears
	case e.Needed <= (1+closeBy)*e.Allowed:
		e.Verdict = Close
	default:
		e.Verdict = Fails
	}
	return e, nil
}

// allows returns the range of stretch between the limits. Sheet metal is taken
// to nine tenths of its level in plane strain and not to be gathered; cloth that
// is sheared to its lock is longer over one diagonal than over the other.
func (m Material) allows(oneWay bool) float64 {
	if m.Metal != nil {
		return nearLimit * m.Metal.Limit(0)
	}
	sine, tension := math.Sin(m.Lock), (m.Tension[0]+m.Tension[1])/2
	if oneWay {
		tension = max(m.Tension[0], m.Tension[1])
	}
	return float64((1+tension)/(1-(m.Squeeze[0]+m.Squeeze[1])/2)*math.Sqrt((1+sine)/(1-sine))) - 1
}

// roundRange returns the least range of stretch of a round patch of constant
// curvature Ω in all, radians; beyond a half sphere that of the half sphere
// grown by the same rate.
func roundRange(omega float64) float64 {
	if omega <= 0 {
		return 0
	}
	if omega >= 2*math.Pi {
		return math.Pi/2*omega/(2*math.Pi) - 1
	}
	a := math.Acos(1 - omega/(2*math.Pi))
	return a/math.Sin(a) - 1
}

// roundCurvature is the inverse of roundRange, at most 2π.
func roundCurvature(within float64) float64 {
	low, high := 0.0, 2*math.Pi
	for range 60 {
		if mid := (low + high) / 2; roundRange(mid) <= within {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// spread returns how far values by vertex are apart between 1 % and 99 % of the
// area, so that a stray vertex of a scan does not speak for all.
func (s *sheet) spread(value []float64) float64 {
	share := make([]float64, len(value))
	for i, f := range s.faces {
		for _, v := range f {
			share[v] += s.rest[i].Area / 3
		}
	}
	order := make([]int32, len(value))
	for v := range order {
		order[v] = int32(v)
	}
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(value[a], value[b]) })
	low, high := math.Inf(-1), math.Inf(-1)
	var sum float64
	for _, v := range order {
		sum += share[v]
		if math.IsInf(low, -1) && sum >= (1-mostOfArea)*s.area {
			low = value[v]
		}
		if math.IsInf(high, -1) && sum >= mostOfArea*s.area {
			high = value[v]
		}
	}
	return high - low
}
