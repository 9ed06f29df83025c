package mesh

import (
	"fmt"
)

// Finding is something to know before a mesh is laid flat.
type Finding struct {
	What   Trouble
	Count  int
	Place  Vec     // the first of them
	Length float64 // mm, the longest side, of Small and Large
}

// Trouble names a finding.
type Trouble uint8

// What Check finds. The first five stand against any work on the surface, and
// Repair puts them right; the others ask for a cut, a choice or a look.
const (
	Empty   Trouble = iota
	NoArea          // faces whose corners lie on one line
	Tangled         // edges of more than two faces
	Against         // edges of two faces that run against each other
	Tips            // points at which sheets touch
	FacesIn         // closed parts that are inside out
	Apart           // parts, if more than one
	Closed          // parts without a rim
	Holed           // holes
	Handled         // handles
	Crossed         // pairs of faces that run through each other
	Small           // the longest side is less than that of any piece of the trade
	Large           // it is more
)

// troubles are sentences for one and for more.
var troubles = [...][2]string{
	NoArea:  {"A face has no area.", "%d faces have no area."},
	Tangled: {"An edge lies between more than two faces.", "%d edges lie between more than two faces."},
	Against: {"An edge lies between faces that run against each other.", "%d edges lie between faces that run against each other."},
	Tips:    {"Sheets touch in nothing but a point.", "Sheets touch in nothing but a point, %d times."},
	FacesIn: {"A closed part is inside out.", "%d closed parts are inside out."},
	Apart:   {"", "It is in %d parts that do not hang together."},
	Closed:  {"It has no rim and must be cut open.", "%d parts have no rim and must be cut open."},
	Holed:   {"It has a hole.", "It has %d holes."},
	Handled: {"It has a handle, as a ring has: it must be cut twice to lie flat.", "It has %d handles, as a ring has one: each must be cut twice to lie flat."},
	Crossed: {"Two faces run through each other.", "%d pairs of faces run through each other."},
}

// Stops reports whether nothing can be worked out before it is put right.
func (t Trouble) Stops() bool { return t < FacesIn }

// String is a sentence with the count.
func (f Finding) String() string {
	switch f.What {
	case Empty:
		return "There is no face in it."
	case Small, Large:
		return fmt.Sprintf("Its longest side is %.4g mm: is the unit right?", f.Length)
	}
	return counted(troubles[f.What], f.Count)
}

const (
	mostCrossings = 1000
	shortest      = 20     // mm, the longest side of a piece
	longest       = 12_000 // mm
)

// Check lists what stands against laying a mesh in millimetres flat, the worst
// first. It counts at most 1,000 crossings.
func (m Mesh) Check() []Finding {
	if len(m.Faces) == 0 {
		return []Finding{{What: Empty}}
	}
	c := checker{m: m, a: m.Adjacency()}
	c.faces()
	c.edges()
	if len(c.a.Tangled) == 0 {
		opened, _ := m.part(c.a)
		c.note(Tips, len(opened.Points)-len(m.Points), func() Vec { return opened.Points[len(m.Points)] })
	}
	c.parts()
	if list := m.Crossings(mostCrossings); len(list) > 0 {
		c.note(Crossed, len(list), func() Vec { return m.centre(m.Faces[list[0][0]]) })
	}
	lo, hi := m.Box()
	side := max(hi.X-lo.X, hi.Y-lo.Y, hi.Z-lo.Z)
	if side < shortest {
		c.found = append(c.found, Finding{What: Small, Place: lo, Length: side})
	} else if side > longest {
		c.found = append(c.found, Finding{What: Large, Place: lo, Length: side})
	}
	return c.found
}

type checker struct {
	m     Mesh
	a     Adjacency
	found []Finding
}

func (c *checker) note(what Trouble, count int, place func() Vec) {
	if count > 0 {
		c.found = append(c.found, Finding{What: what, Count: count, Place: place()})
	}
}

func (c *checker) faces() {
	var list []int
	for f := range c.m.Faces {
		if _, none := c.m.needle(f); none {
			list = append(list, f)
		}
	}
	c.note(NoArea, len(list), func() Vec { return c.m.centre(c.m.Faces[list[0]]) })
}

func (c *checker) edges() {
	if len(c.a.Tangled) == 0 {
		return
	}
	var tangled, against []int32
	c.a.eachEdge(func(edge []int32) {
		switch {
		case len(edge) > 2:
			tangled = append(tangled, edge[0])
		case len(edge) == 2 && c.a.Tail[edge[0]] == c.a.Tail[edge[1]]:
			against = append(against, edge[0])
		}
	})
	c.note(Tangled, len(tangled), func() Vec { return c.m.Points[c.a.Tail[tangled[0]]] })
	c.note(Against, len(against), func() Vec { return c.m.Points[c.a.Tail[against[0]]] })
}

func (c *checker) parts() {
	var closed, in, holes, handles int
	var atClosed, atIn, atHole, atHandle Vec
	add := func(sum *int, n int, at *Vec, p Part) {
		if *sum == 0 && n > 0 {
			*at = c.m.centre(c.m.Faces[p.Faces[0]])
		}
		*sum += n
	}
	list := c.m.Parts()
	for _, p := range list {
		add(&holes, max(0, p.Loops-1), &atHole, p)
		add(&handles, p.Handles(), &atHandle, p)
		if p.Loops == 0 {
			add(&closed, 1, &atClosed, p)
			if (Mesh{c.m.Points, pick(c.m.Faces, p.Faces)}).Volume() < 0 {
				add(&in, 1, &atIn, p)
			}
		}
	}
	c.note(FacesIn, in, func() Vec { return atIn })
	if len(list) > 1 {
		c.note(Apart, len(list), func() Vec { return c.m.centre(c.m.Faces[list[1].Faces[0]]) })
	}
	c.note(Closed, closed, func() Vec { return atClosed })
	c.note(Holed, holes, func() Vec { return atHole })
	c.note(Handled, handles, func() Vec { return atHandle })
}
