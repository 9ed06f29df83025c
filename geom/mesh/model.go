package mesh

import "fettle/geom"

// Model is a mesh as a file holds it.
type Model struct {
	Mesh Mesh
	UV   []geom.Point // flat places of the corners 3f+k, nil where there are none
	Unit float64      // millimetres in one unit of length, 0 where nothing says
	Left []Left       // what a reader left out
}

// Left is a kind of thing that was left out, and how often.
type Left struct {
	What  string
	Count int
}
