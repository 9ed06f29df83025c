package mesh

// flat is the height of a face over its longest side below which it is a needle.
const flat = 1e-7

// turnNeedles gives faces whose three corners lie on one line a part of the face
// across their longest side, which is turned: the surface stays the same and
// whole. Needles at the rim, and those beside needles, stay.
func (r *repairer) turnNeedles() {
	a, turned, first := r.m.Adjacency(), 0, Vec{}
	touched := make([]bool, len(r.m.Faces))
	for f := range r.m.Faces {
		h, needle := r.m.needle(f)
		if !needle || touched[f] || a.Twin[h] == None {
			continue
		}
		t := a.Twin[h]
		if _, also := r.m.needle(int(t / 3)); also || touched[t/3] {
			continue
		}
		u, v, tip, far := a.Tail[h], a.Head(h), a.Tail[Prev(h)], a.Tail[Prev(t)]
		if tip == far || a.Find(tip, far) != None || a.Find(far, tip) != None {
			continue
		}
		if turned++; turned == 1 {
			first = r.m.centre(r.m.Faces[f])
		}
		r.m.Faces[f], r.m.Faces[t/3] = Face{u, far, tip}, Face{v, tip, far}
		touched[f], touched[t/3] = true, true
		for _, h := range []int32{Next(h), Prev(h), Next(t), Prev(t)} {
			if g := a.Twin[h]; g != None {
				touched[g/3] = true
			}
		}
	}
	r.note(Needle, turned, func() Vec { return first })
}

// needle returns the half-edge along the longest side of a face, and whether the
// third corner lies on it.
func (m Mesh) needle(f int) (int32, bool) {
	at, longest := int32(3*f), 0.0
	for k := range int32(3) {
		if d := m.EdgeLength(m.Faces[f][k], m.Faces[f][(k+1)%3]); d > longest {
			at, longest = int32(3*f)+k, d
		}
	}
	return at, m.FaceArea(f)*2 <= float64(flat*longest)*longest
}
