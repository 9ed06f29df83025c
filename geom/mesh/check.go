package mesh

import (
	"fmt"
	"strings"
)

// Finding is something to know before a mesh is laid flat.
type Finding struct {
	What  Trouble
	Count int
	Place Vec // the first of them
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
	Small           // millimetres, if they are: less than any piece of the trade
	Large           // more than any
)

var troubles = [...]string{
	Empty:   "There is no face in it.",
	NoArea:  "%d faces have no area.",
	Tangled: "%d edges lie between more than two faces.",
	Against: "%d edges lie between faces that run against each other.",
	Tips:    "Sheets touch in nothing but a point, %d times.",
	FacesIn: "%d closed parts are inside out.",
	Apart:   "It is in %d parts that do not hang together.",
	Closed:  "%d parts have no rim and must be cut open.",
	Holed:   "It has %d holes.",
	Handled: "It has %d handles, as a ring has one: each must be cut twice.",
	Crossed: "%d pairs of faces run through each other.",
	Small:   "Its longest side is %d millimetres: is the unit right?",
	Large:   "Its longest side is %d millimetres: is the unit right?",
}

// Stops reports whether nothing can be worked out before it is put right.
func (t Trouble) Stops() bool { return t < FacesIn }

// String is a sentence with the count.
func (f Finding) String() string {
	if !strings.Contains(troubles[f.What], "%") {
		return troubles[f.What]
	}
	return fmt.Sprintf(troubles[f.What], f.Count)
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
		c.found = append(c.found, Finding{Small, int(side), lo})
	} else if side > longest {
		c.found = append(c.found, Finding{Large, int(side), lo})
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
		c.found = append(c.found, Finding{what, count, place()})
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
