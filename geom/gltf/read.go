package gltf

import (
	"fmt"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
)

const (
	deepest   = 64
	mostNodes = 100_000   // visited
	mostParts = 1_000_000 // primitives, over all nodes
	metre     = 1000
	repeats   = 10 // of points, over how many may differ
)

// Read reads the surfaces of a file's scene as one, in metres, with y up as the
// standard has it. Errors are faults of kind Invalid or TooLarge that name the
// byte, the accessor, or the node and primitive.
func Read(data []byte, limits mesh.Limits) (mesh.Model, error) {
	if err := limits.Size(len(data)); err != nil {
		return mesh.Model{}, err
	}
	text, bin, err := unpack(data)
	if err != nil {
		return mesh.Model{}, err
	}
	r := reader{build: mesh.Builder{Limits: limits}}
	if r.doc, err = parse(text); err != nil {
		return mesh.Model{}, err
	}
	if r.buffers, err = load(r.doc.Buffers, bin, limits.Standard().Bytes); err != nil {
		return mesh.Model{}, err
	}
	if err := r.scene(); err != nil {
		return mesh.Model{}, err
	}
	m := r.build.Model()
	m.Unit = metre
	return m, nil
}

// reader is a file under way.
type reader struct {
	doc     document
	buffers [][]byte
	build   mesh.Builder
	visited int // nodes
	parts   int // primitives
	rows    int // of places
}

// scene reads the nodes of the scene that is shown, or all that hang on none
// where no scene is.
func (r *reader) scene() error {
	var roots []int
	switch {
	case len(r.doc.Scenes) > 0:
		s := 0
		if r.doc.Scene != nil {
			s = *r.doc.Scene
		}
		if s < 0 || s >= len(r.doc.Scenes) {
			return fault.New(fault.Invalid, "scene %d does not stand in the file", s)
		}
		roots = r.doc.Scenes[s].Nodes
	default:
		child := make(map[int]bool)
		for _, n := range r.doc.Nodes {
			for _, c := range n.Children {
				child[c] = true
			}
		}
		for i := range r.doc.Nodes {
			if !child[i] {
				roots = append(roots, i)
			}
		}
	}
	for _, i := range roots {
		if err := r.node(i, mesh.Identity, 1); err != nil {
			return err
		}
	}
	return nil
}

func (r *reader) node(i int, above mesh.Affine, depth int) error {
	where := fmt.Sprintf("node %d", i)
	if i < 0 || i >= len(r.doc.Nodes) {
		return fault.New(fault.Invalid, "it does not stand in the file").At(where)
	}
	if r.visited++; depth > deepest || r.visited > mostNodes {
		return fault.New(fault.Invalid, "nodes hang on each other more than %d deep, or in a ring", deepest).At(where)
	}
	n := r.doc.Nodes[i]
	move := above.After(n.move())
	if n.Mesh != nil {
		if *n.Mesh < 0 || *n.Mesh >= len(r.doc.Meshes) {
			return fault.New(fault.Invalid, "its mesh %d does not stand in the file", *n.Mesh).At(where)
		}
		for k, p := range r.doc.Meshes[*n.Mesh].Primitives {
			if err := r.primitive(p, move); err != nil {
				return fault.Within(err, fmt.Sprintf("%s, primitive %d", where, k))
			}
		}
	}
	for _, c := range n.Children {
		if err := r.node(c, move, depth+1); err != nil {
			return err
		}
	}
	return nil
}

// move is the node's matrix, which is written by columns, or its scale, turn
// (a quaternion, its real part last) and step in this order.
func (n node) move() mesh.Affine {
	a := mesh.Identity
	if m := n.Matrix; m != nil {
		for i := range 3 {
			a[i] = [4]float64{m[i], m[4+i], m[8+i], m[12+i]}
		}
		return a
	}
	if s := n.Scale; s != nil {
		a = mesh.Affine{{s[0], 0, 0, 0}, {0, s[1], 0, 0}, {0, 0, s[2], 0}}
	}
	if n.Rotation != nil {
		x, y, z, w := n.Rotation[0], n.Rotation[1], n.Rotation[2], n.Rotation[3]
		twice := func(a, b float64) float64 { return float64(2 * a * b) }
		a = mesh.Affine{
			{1 - twice(y, y) - twice(z, z), twice(x, y) - twice(z, w), twice(x, z) + twice(y, w), 0},
			{twice(x, y) + twice(z, w), 1 - twice(x, x) - twice(z, z), twice(y, z) - twice(x, w), 0},
			{twice(x, z) - twice(y, w), twice(y, z) + twice(x, w), 1 - twice(x, x) - twice(y, y), 0},
		}.After(a)
	}
	if t := n.Translation; t != nil {
		for i := range 3 {
			a[i][3] += t[i]
		}
	}
	return a
}

// primitive adds the triangles of one primitive.
func (r *reader) primitive(p primitive, move mesh.Affine) error {
	if r.parts++; r.parts > mostParts {
		return fault.New(fault.TooLarge, "the file repeats its parts too often")
	}
	mode := triangles
	if p.Mode != nil {
		mode = *p.Mode
	}
	at, placed := p.Attributes["POSITION"]
	if mode < triangles || mode > fan || !placed {
		r.build.Leave("lines, points and other things without faces")
		return nil
	}
	g := corners{move: move, mode: mode}
	var err error
	if g.place, err = r.column(at, "VEC3"); err != nil {
		return err
	}
	if i, ok := p.Attributes["TEXCOORD_0"]; ok {
		flat, err := r.column(i, "VEC2")
		if err != nil {
			return err
		}
		g.flat = &flat
	}
	if p.Indices != nil {
		index, err := r.column(*p.Indices, "SCALAR")
		if err != nil {
			return err
		}
		if index.kind == float32s {
			return fault.New(fault.Invalid, "its indices are not whole numbers").At(fmt.Sprintf("accessor %d", *p.Indices))
		}
		g.index = &index
	}
	return r.faces(g)
}

// corners are the columns of a primitive.
type corners struct {
	move        mesh.Affine
	mode        int
	place       column
	flat, index *column
}

// faces adds the triangles of a primitive: three corners each, or strung
// together.
func (r *reader) faces(g corners) error {
	if r.rows += g.place.count; r.rows > repeats*r.build.Limits.Standard().Points {
		return fault.New(fault.TooLarge, "the file repeats its points too often")
	}
	points := make([]int64, g.place.count)
	for i := range points {
		var x [3]float64
		g.place.row(i, x[:])
		v, err := r.build.Shared(g.move.Apply(mesh.Vec{X: x[0], Y: x[1], Z: x[2]}))
		if err != nil {
			return fault.Within(err, fmt.Sprintf("point %d", i))
		}
		points[i] = v
	}
	n := len(points)
	if g.index != nil {
		n = g.index.count
	}
	count := n / 3
	if g.mode != triangles {
		count = max(0, n-2)
	}
	for f := range count {
		face, err := r.corners(g, f, points)
		if err == nil {
			err = r.build.Face(face.at, face.flat)
		}
		if err != nil {
			return fault.Within(err, fmt.Sprintf("face %d", f))
		}
	}
	return nil
}

// face is one triangle.
type face struct {
	at   [3]int64
	flat *[3]geom.Point
}

func (r *reader) corners(g corners, f int, points []int64) (face, error) {
	var out face
	at := [3]int{3 * f, 3*f + 1, 3*f + 2}
	switch {
	case g.mode == strip && f%2 == 0:
		at = [3]int{f, f + 1, f + 2}
	case g.mode == strip:
		at = [3]int{f + 1, f, f + 2}
	case g.mode == fan:
		at = [3]int{0, f + 1, f + 2}
	}
	if g.flat != nil {
		out.flat = &[3]geom.Point{}
	}
	for k, i := range at {
		if g.index != nil {
			var x [1]float64
			g.index.row(i, x[:])
			i = int(x[0])
		}
		if i < 0 || i >= len(points) {
			return out, fault.New(fault.Invalid, "it names point %d, counted from 0, of %d", i, len(points))
		}
		out.at[k] = points[i]
		if g.flat != nil {
			if i >= g.flat.count {
				return out, fault.New(fault.Invalid, "point %d has no flat place", i)
			}
			var x [2]float64
			g.flat.row(i, x[:])
			out.flat[k] = geom.Point{X: x[0], Y: x[1]}
		}
	}
	if g.move.Mirrors() {
		out.at[1], out.at[2] = out.at[2], out.at[1]
		if out.flat != nil {
			out.flat[1], out.flat[2] = out.flat[2], out.flat[1]
		}
	}
	return out, nil
}
