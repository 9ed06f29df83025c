package mesh

import "math"

// Weld makes points no further apart than within into one: each goes to the
// nearest of those before it that stayed, so none moves further than that. It
// returns by old point the index of the new one. Faces that lose a side stay:
// Repair takes them out.
func (m Mesh) Weld(within float64) (welded Mesh, renamed []int32) {
	g := newGrid(within, m.Points)
	renamed = make([]int32, len(m.Points))
	for i, p := range m.Points {
		if renamed[i] = g.nearest(p); renamed[i] == None {
			renamed[i] = g.add(p)
		}
	}
	return Mesh{Points: g.points, Faces: m.rename(renamed)}, renamed
}

func (m Mesh) rename(to []int32) []Face {
	faces := make([]Face, len(m.Faces))
	for f, face := range m.Faces {
		faces[f] = Face{to[face[0]], to[face[1]], to[face[2]]}
	}
	return faces
}

// grid finds points that are near, by cells of one width.
type grid struct {
	within, width float64
	points        []Vec
	first         []int32 // by hash of the cell: the last point added
	next          []int32 // by point: the one added before it
}

func newGrid(within float64, points []Vec) *grid {
	size := 1024
	for size < 2*len(points) {
		size *= 2
	}
	g := &grid{within: max(within, 0), first: make([]int32, size)}
	if g.within > 0 {
		g.width = 2 * g.within
		for _, p := range points { // numbers of cells must be exact
			g.width = max(g.width, math.Abs(p.X)/(1<<50), math.Abs(p.Y)/(1<<50), math.Abs(p.Z)/(1<<50))
		}
	}
	for i := range g.first {
		g.first[i] = None
	}
	return g
}

// cell numbers cells along an axis; where nothing is near but the same place,
// every place is a cell. The 0 added makes 0 of -0, which would be another cell.
func (g *grid) cell(x float64) float64 {
	if g.width == 0 {
		return x + 0
	}
	return math.Floor(x/g.width) + 0
}

func (g *grid) slot(cell Vec) uint64 { return hash(cell) & uint64(len(g.first)-1) }

func (g *grid) add(p Vec) int32 {
	i, s := int32(len(g.points)), g.slot(Vec{g.cell(p.X), g.cell(p.Y), g.cell(p.Z)})
	g.points, g.next = append(g.points, p), append(g.next, g.first[s])
	g.first[s] = i
	return i
}

// nearest returns the point that is nearest within reach, the first of several.
func (g *grid) nearest(p Vec) int32 {
	best, least := None, g.within
	lo, hi := p.Sub(Vec{g.within, g.within, g.within}), p.Add(Vec{g.within, g.within, g.within})
	for x := g.cell(lo.X); x <= g.cell(hi.X); x++ {
		for y := g.cell(lo.Y); y <= g.cell(hi.Y); y++ {
			for z := g.cell(lo.Z); z <= g.cell(hi.Z); z++ {
				for i := g.first[g.slot(Vec{x, y, z})]; i != None; i = g.next[i] {
					if g.width == 0 && g.points[i] != p {
						continue // a distance of 1e-200 would be rounded to nothing
					}
					if d := g.points[i].Sub(p).Length(); d < least || d == least && (best == None || i < best) {
						best, least = i, d
					}
				}
				if g.width == 0 {
					return best
				}
			}
		}
	}
	return best
}
