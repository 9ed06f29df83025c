package mesh

import "slices"

// partSheets leaves at most two faces at every edge, and one fan of faces at
// every point. Of more than two faces at an edge the pair that bends least stays
// together, then the next.
func (r *repairer) partSheets() {
	before, first := len(r.m.Points), Vec{}
	for round := 0; ; round++ {
		a := r.m.Adjacency()
		loose := a.untangle(r.m)
		opened, source := r.m.part(a)
		if before == len(r.m.Points) && len(opened.Points) > before {
			first = opened.Points[before]
		}
		r.take(opened, source)
		if round > 0 || len(loose) == 0 {
			break
		}
		r.loosen(loose)
	}
	r.note(SheetsParted, len(r.m.Points)-before, func() Vec { return first })
}

// take goes on with a mesh whose points come from those at hand.
func (r *repairer) take(m Mesh, source []int32) {
	for i, v := range source {
		source[i] = r.source[v]
	}
	r.m, r.source = m, source
}

// untangle joins the half-edges of tangled edges by pairs that run against each
// other, those first between which the surface bends least, and returns those
// left over or in a second pair.
func (a *Adjacency) untangle(m Mesh) (loose []int32) {
	if len(a.Tangled) == 0 {
		return nil
	}
	tangled := make([]bool, len(a.Tail))
	for _, h := range a.Tangled {
		tangled[h] = true
	}
	a.eachEdge(func(edge []int32) {
		if !tangled[edge[0]] {
			return
		}
		left := slices.Clone(edge)
		for pairs := 0; ; pairs++ {
			best, i, j := -2.0, 0, 0
			for x, g := range left {
				for y, h := range left[:x] {
					if n := m.FaceNormal(int(g / 3)).Dot(m.FaceNormal(int(h / 3))); a.Tail[g] != a.Tail[h] && n > best {
						best, i, j = n, x, y
					}
				}
			}
			if best < -1.5 {
				break
			}
			if a.join(left[i], left[j]); pairs > 0 {
				loose = append(loose, left[i], left[j])
			}
			left = slices.Delete(slices.Delete(left, i, i+1), j, j+1)
		}
		loose = append(loose, left...)
	})
	return loose
}

// loosen gives faces that still share an edge with a pair of others points of
// their own there.
func (r *repairer) loosen(half []int32) {
	a := r.m.Adjacency()
	for _, h := range half {
		if _, still := slices.BinarySearch(a.Tangled, h); !still {
			continue
		}
		for _, c := range []int32{h, Next(h)} {
			v := a.Tail[c]
			r.m.Faces[c/3][c%3] = int32(len(r.m.Points))
			r.m.Points, r.source = append(r.m.Points, r.m.Points[v]), append(r.source, r.source[v])
		}
	}
}
