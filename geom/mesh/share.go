package mesh

import "math"

// Shared returns the index of the point at exactly this place, which it adds
// where there is none: formats that repeat a point for every face become a
// surface again. Errors are faults without a place.
func (b *Builder) Shared(p Vec) (int64, error) {
	p = Vec{p.X + 0, p.Y + 0, p.Z + 0} // -0 is 0
	if 2*b.Points() >= len(b.shared) {
		b.spread()
	}
	slot := b.slot(p)
	if v := b.shared[slot]; v != None {
		return int64(v), nil
	}
	if err := b.Point(p); err != nil {
		return 0, err
	}
	b.shared[slot] = int32(b.Points() - 1)
	return int64(b.Points() - 1), nil
}

// slot is where in the table a place stands or would stand.
func (b *Builder) slot(p Vec) uint64 {
	mask := uint64(len(b.shared) - 1)
	for s := hash(p) & mask; ; s = (s + 1) & mask {
		if v := b.shared[s]; v == None || b.model.Mesh.Points[v] == p {
			return s
		}
	}
}

// spread doubles the table. Of equal points that were added each on its own the
// first is the one that is found.
func (b *Builder) spread() {
	b.shared = make([]int32, max(1024, 2*len(b.shared)))
	for 2*b.Points() >= len(b.shared) {
		b.shared = make([]int32, 2*len(b.shared))
	}
	for i := range b.shared {
		b.shared[i] = None
	}
	for v, p := range b.model.Mesh.Points {
		if s := b.slot(p); b.shared[s] == None {
			b.shared[s] = int32(v)
		}
	}
}

// hash mixes the bits of a place.
func hash(p Vec) uint64 {
	h := uint64(0)
	for _, x := range [3]float64{p.X, p.Y, p.Z} {
		h = (h ^ math.Float64bits(x)) * 0x9e3779b97f4a7c15
		h ^= h >> 29
	}
	return h
}
