// Package surface draws a curved surface from a chosen side and the same
// surface laid flat beside it, in one hatching: how far a material is pulled,
// and where it is pushed together.
package surface

import (
	"fmt"

	"fettle/geom"
	"fettle/geom/mesh"
)

// Class says how far a face is strained. Each has its own hatching, so that
// colour is never alone.
type Class uint8

// The classes, from what lies by itself to what wrinkles.
const (
	Lies     Class = iota // by itself
	Pulled                // by hand
	Hard                  // near what the material bears
	Past                  // more than it bears
	Eased                 // pushed together, and bears it
	Wrinkles              // pushed together more than it bears
	Classes  = 6
)

var words = [Classes]string{"lies by itself", "pull by hand", "pull hard", "past its limit", "eases in", "wrinkles"}

// String is the class in words.
func (c Class) String() string { return words[c] }

// Solid is a surface with how far each face is strained.
type Solid struct {
	Points []mesh.Vec
	Faces  []mesh.Face
	Class  []Class // by face; nil before it is laid flat
	Cuts   [][]int32
	Spots  []Spot
	Marks  []int32 // vertices that are numbered on the drawing
}

// Flat is a surface laid flat. Its faces are those of the solid, in the same
// order; y is up.
type Flat struct {
	Points []geom.Point
	Faces  []mesh.Face
	Class  []Class
	Spots  []Spot
	Lines  [][2]geom.Point // drawn across it, such as folds
}

// Spot is a face with a number on a leader line, as a table beside names it.
type Spot struct {
	Face  int32
	Label string
}

// View is the side that a solid is looked at from: degrees about the upright
// axis, and above the level.
type View struct{ Turn, Tip float64 }

// Named is a view with its word.
type Named struct {
	Key, Word string
	View
}

// Views are the sides that can be chosen by name.
func Views() []Named {
	return []Named{{"corner", "Corner", View{30, 35}}, {"front", "Front", View{0, 0}}, {"left", "Left", View{-90, 0}}, {"right", "Right", View{90, 0}}, {"back", "Back", View{180, 0}}, {"above", "Above", View{0, 90}}, {"below", "Below", View{0, -90}}}
}

// Side returns the view of that name, the first where there is none.
func Side(key string) Named {
	all := Views()
	for _, v := range all {
		if v.Key == key {
			return v
		}
	}
	return all[0]
}

// Band is one line of the legend: a class and the stretches it stands for.
type Band struct {
	Class Class
	Along string // such as 1.5 to 3.0 %
	Cross string
	Share float64 // of the area, 0 to 1
}

func (b Band) share() string { return fmt.Sprintf("%.1f %%", 100*b.Share) }
