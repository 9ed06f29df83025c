package board

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"fettle/engine/loom/route"
	"fettle/geom"
)

// Of the schematic faces, millimetres.
const (
	faceGap    = 8  // from the end of the branch
	cavityGap  = 10 // from cavity to cavity
	cavitySpan = 9
)

// seat is a wire's end in a connector.
type seat struct {
	cavity string
	wire   int
}

// faceSizes sorts the wires that end in each waypoint by cavity, and sizes its face.
func (d *desk) faceSizes() {
	n := len(d.p.Loom.Nodes)
	d.wires, d.ends = make([][]seat, n), make([]geom.Point, n)
	for i, w := range d.p.Loom.Wires {
		for _, e := range []route.End{w.From, w.To} {
			if v, ok := d.node[e.Node]; ok {
				d.wires[v] = append(d.wires[v], seat{e.Cavity, i})
			}
		}
	}
	for v, seats := range d.wires {
		slices.SortStableFunc(seats, func(a, b seat) int { return byNumber(a.cavity, b.cavity) })
		if len(seats) == 0 {
			continue
		}
		rows, columns := d.grid(v)
		d.ends[v] = geom.Point{X: float64(columns*cavityGap + 3), Y: float64(rows*cavityGap + 3)}
	}
}

// byNumber orders names of cavities: numbers by size, before words.
func byNumber(a, b string) int {
	x, errX := strconv.Atoi(a)
	y, errY := strconv.Atoi(b)
	switch {
	case errX == nil && errY == nil && x != y:
		return cmp.Compare(x, y)
	case (errX == nil) != (errY == nil):
		if errX == nil {
			return -1
		}
		return 1
	}
	return cmp.Compare(a, b)
}

// cavities are the names in a connector, each once, in order; what the maker
// has and no wire uses is numbered on.
func (d *desk) cavities(v int) (names []string, wire map[string]string) {
	wire = map[string]string{}
	for _, s := range d.wires[v] {
		name := s.cavity
		if name == "" {
			name = d.p.Loom.Wires[s.wire].ID
		}
		if _, twice := wire[name]; !twice {
			names = append(names, name)
			wire[name] = d.p.Loom.Wires[s.wire].ID
			continue
		}
		wire[name] += " + " + d.p.Loom.Wires[s.wire].ID
	}
	for k := 1; len(names) < d.p.Loom.Nodes[v].Cavities; k++ {
		if name := strconv.Itoa(k); wire[name] == "" {
			if _, taken := wire[name]; !taken {
				names = append(names, name)
				wire[name] = ""
			}
		}
	}
	slices.SortStableFunc(names, byNumber)
	return names, wire
}

// colours are those of the wires in a cavity.
func (d *desk) colours(v int, name string) []string {
	var list []string
	for _, s := range d.wires[v] {
		if w := d.p.Loom.Wires[s.wire]; (s.cavity == name || s.cavity == "" && w.ID == name) && w.Colour != "" {
			list = append(list, w.Colour)
		}
	}
	return list
}

// inside writes what stands in a cavity, small enough to stay in it.
func (d *desk) inside(text string, at geom.Point, height float64) {
	if n := len([]rune(text)); n > 0 {
		height = min(height, (cavitySpan-1)/(letterWide*float64(n)))
		d.out.Texts = append(d.out.Texts, Text{Layer: LayerFaces, Text: text, At: at, Height: height})
	}
}

func (d *desk) grid(v int) (rows, columns int) {
	names, _ := d.cavities(v)
	columns = d.p.Loom.Nodes[v].Columns
	if columns == 0 {
		columns = int(math.Ceil(math.Sqrt(2 * float64(len(names)))))
	}
	columns = min(columns, len(names))
	return (len(names) + columns - 1) / columns, columns
}

// faces draws every connector beyond the end of its branch.
func (d *desk) faces(t *tree) {
	for v, node := range d.p.Loom.Nodes {
		if len(d.wires[v]) == 0 || len(t.at[v]) == 0 {
			continue
		}
		dir := d.outward(t, v)
		w, h := d.ends[v].X, d.ends[v].Y
		off := faceGap + math.Abs(dir.X)*w/2 + math.Abs(dir.Y)*h/2
		mid := geom.Point{X: t.pos[v].X + off*dir.X, Y: t.pos[v].Y + off*dir.Y}
		f := Face{Node: node.ID, Outline: box(mid, w, h)}
		names, wire := d.cavities(v)
		_, columns := d.grid(v)
		for i, name := range names {
			at := geom.Point{X: mid.X - w/2 + 6.5 + float64(i%columns*cavityGap), Y: mid.Y + h/2 - 6.5 - float64(i/columns*cavityGap)}
			c := Cavity{Name: name, At: at, Wire: wire[name], Colours: d.colours(v, name)}
			f.Cavities = append(f.Cavities, c)
			d.line(LayerFaces, true, box(at, cavitySpan, cavitySpan)...)
			d.inside(name, geom.Point{X: at.X, Y: at.Y + 1.9}, 2.6)
			d.inside(strings.Join(c.Colours, "+"), geom.Point{X: at.X, Y: at.Y - 2.2}, 2)
			if c.Wire == "" { // nothing goes in: plug it
				d.line(LayerFaces, false, geom.Point{X: at.X - cavitySpan/4., Y: at.Y - 2.2}, geom.Point{X: at.X + cavitySpan/4., Y: at.Y - 2.2})
			}
		}
		d.line(LayerFaces, true, f.Outline...)
		head := d.called(node.ID)
		if node.Cavities > 0 {
			head += ", from the mating side"
		}
		d.word(LayerFaces, head, geom.Point{X: mid.X, Y: mid.Y + h/2}, 4)
		d.out.Faces = append(d.out.Faces, f)
	}
	d.covered()
}

// covered tells faces that lie over a branch that is not theirs, or over one another.
func (d *desk) covered() {
	over := func(f Face, what string) {
		d.out.Findings = append(d.out.Findings, route.Finding{Rule: RuleFace, Where: "connector " + f.Node, Text: "its face is drawn over " + what, Hint: "move the face by hand"})
	}
	for i, f := range d.out.Faces {
		lo, hi := f.Outline[0], f.Outline[2]
		for _, g := range d.out.Faces[:i] {
			if a, b := g.Outline[0], g.Outline[2]; lo.X < b.X && a.X < hi.X && lo.Y < b.Y && a.Y < hi.Y {
				over(f, "that of "+g.Node)
			}
		}
		for k, b := range d.out.Branches {
			if s := d.p.Routed.Runs[k]; s.From == f.Node || s.To == f.Node {
				continue
			}
			for j := 1; j < len(b.Points); j++ {
				if crossesBox(b.Points[j-1], b.Points[j], lo, hi) {
					over(f, "stretch "+b.ID)
					break
				}
			}
		}
	}
}

// crossesBox reports whether a piece of line has a part inside a box.
func crossesBox(a, b, lo, hi geom.Point) bool {
	from, to := 0.0, 1.0
	for _, x := range [2][4]float64{{a.X, b.X, lo.X, hi.X}, {a.Y, b.Y, lo.Y, hi.Y}} {
		if x[0] == x[1] {
			if x[0] <= x[2] || x[0] >= x[3] {
				return false
			}
			continue
		}
		u, v := (x[2]-x[0])/(x[1]-x[0]), (x[3]-x[0])/(x[1]-x[0])
		from, to = max(from, min(u, v)), min(to, max(u, v))
	}
	return from < to
}

// outward is the middle of the widest gap between the lines at a node.
func (d *desk) outward(t *tree, v int) geom.Point {
	heads := t.heads(v)
	slices.Sort(heads)
	best, at := -1.0, 0.0
	for i, h := range heads {
		next := heads[(i+1)%len(heads)]
		if i == len(heads)-1 {
			next += 2 * math.Pi
		}
		if next-h > best {
			best, at = next-h, (h+next)/2
		}
	}
	return heading(at)
}

// heads are the headings of the lines at a node.
func (t *tree) heads(v int) []float64 {
	var heads []float64
	for _, e := range t.at[v] {
		p := t.path[e]
		if p[0] == t.pos[v] {
			heads = append(heads, bearing(p[0], p[1]))
		} else {
			heads = append(heads, bearing(p[len(p)-1], p[len(p)-2]))
		}
	}
	return heads
}

func box(mid geom.Point, w, h float64) []geom.Point {
	return []geom.Point{{X: mid.X - w/2, Y: mid.Y - h/2}, {X: mid.X + w/2, Y: mid.Y - h/2}, {X: mid.X + w/2, Y: mid.Y + h/2}, {X: mid.X - w/2, Y: mid.Y + h/2}}
}
