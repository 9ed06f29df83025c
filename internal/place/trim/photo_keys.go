package trim

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/geom"
)

// tool is what a touch on a photo marks; Field is the field that carries it.
type tool struct {
	Field, Word, Hint string
	Closed            bool
}

// traceTools are in the order in which a photo is traced; island/trace has what
// they do.
var traceTools = []tool{
	{Field: "reference", Word: "Reference", Hint: "x y, one a line: the corners anticlockwise from the lower left, sheet by sheet; with measured marks x y and then x y in mm", Closed: true},
	{Field: "straight", Word: "Straight edges", Hint: "three places or more of each, one edge a line: x y, x y, x y. They tell how the lens bends"},
	{Field: "outline", Word: "Outline", Hint: "x y, one a line, around the edge", Closed: true},
	{Field: "faults", Word: "Marks, holes", Hint: "one a line, kind and best grade that may lie on it: scar B: x y, x y, x y; two places are its middle and its rim", Closed: true},
	{Field: "zones", Word: "Zones", Hint: "one a line: B belly: x y, x y, x y", Closed: true},
	{Field: "stretch", Word: "Least stretch", Hint: "two places each, one arrow a line: x y, x y"},
	{Field: "checks", Word: "Check", Hint: "a distance and what the tape says, one a line: x y, x y = 1500"},
}

var traceKeys = []key{
	{Act: "undo", Word: "Undo", Keys: "Control+Z"},
	{Act: "redo", Word: "Redo", Keys: "Control+Y"},
	{Act: "fit", Word: "Whole photo", Keys: "0"},
	{Act: "closer", Word: "Closer", Keys: "+"},
	{Act: "farther", Word: "Farther", Keys: "-"},
	{Act: "close", Word: "Next one", Says: "End this one and begin the next", Keys: "X"},
	{Act: "off", Word: "Take off", Says: "Take off the picked point, or the whole thing where none is picked", Keys: "Delete Backspace", Needs: "any"},
	{Act: "find", Word: "Find the edge", Says: "Find the edge in the picture, as a start to be put right"},
	{Act: "all", Word: "Clear these", Says: "Take off all that this tool marked"},
}

// kinds are what marks are called, the commonest of a photo first.
func kinds() []string { return build.MarkKinds() }

// pixelPath is a line in pixels with y down.
func pixelPath(ring []geom.Point) string {
	var b strings.Builder
	for i, p := range ring {
		fmt.Fprintf(&b, "%c%.5g %.5g", "ML"[min(i, 1)], p.X, p.Y)
	}
	return b.String()
}
