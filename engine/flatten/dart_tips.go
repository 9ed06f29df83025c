package flatten

import (
	"cmp"
	"math"
	"slices"
)

// How tips are looked for.
const (
	smoothings = 8 // times that strain beyond the limits is averaged over neighbours
	mostTips   = 2 // of each kind
)

// tips returns inner vertices at which a dart may end, without repetition.
func (p *trial) tips() []int32 {
	var tips []int32
	for _, height := range [2][]float64{p.scale(), p.strainMap()} {
		for _, v := range p.peaks(height) {
			if !slices.Contains(tips, v) {
				tips = append(tips, v)
			}
		}
	}
	return tips
}

// scale returns the size of the log scale by vertex of the map that keeps
// angles and the rim's lengths; nothing where it cannot be worked out.
func (p *trial) scale() []float64 {
	rim := marked(p.rim)
	l, err := newLaplace(p.sheet, rim, &p.stats)
	if err != nil {
		return make([]float64, len(p.rim))
	}
	u := l.solve(defects(p.sheet, rim), &p.stats)
	for v := range u {
		u[v] = math.Abs(u[v])
	}
	return u
}

// strainMap returns the strain beyond the limits by vertex, smoothed.
func (p *trial) strainMap() []float64 {
	by, area := make([]float64, len(p.rim)), make([]float64, len(p.rim))
	for i, f := range p.mesh.Faces {
		for _, v := range f {
			by[v] += float64(p.over[i] * p.sheet.rest[i].Area)
			area[v] += p.sheet.rest[i].Area
		}
	}
	for v := range by {
		by[v] /= area[v]
	}
	for range smoothings {
		next, count := slices.Clone(by), make([]float64, len(by))
		for _, f := range p.mesh.Faces {
			for c, v := range f {
				next[v] += by[f[(c+1)%3]] + by[f[(c+2)%3]]
				count[v] += 2
			}
		}
		for v := range by {
			by[v] = next[v] / (count[v] + 1)
		}
	}
	return by
}

// peaks returns the inner vertices whose value no neighbour exceeds, the
// highest first, a few of them.
func (p *trial) peaks(value []float64) []int32 {
	var list []int32
	for v := range int32(len(value)) {
		if p.rim[v] || !(value[v] > 0) {
			continue
		}
		top := true
		for _, h := range p.near.Leaving(v) {
			w := p.near.Head(h)
			top = top && (value[w] < value[v] || value[w] == value[v] && w > v)
		}
		if top {
			list = append(list, v)
		}
	}
	slices.SortStableFunc(list, func(a, b int32) int { return cmp.Compare(value[b], value[a]) })
	return list[:min(mostTips, len(list))]
}
