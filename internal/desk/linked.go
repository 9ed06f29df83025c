package desk

import (
	"slices"
	"strings"

	"fettle/figure"
)

// Linked returns a figure whose inputs lead to pages of a build: a link such
// as finding/F43 becomes /b/pedlar/finding/F43.
func Linked(build string, f figure.Figure) figure.Figure {
	f.Inputs = slices.Clone(f.Inputs)
	for i, in := range f.Inputs {
		if in.Link != "" && !strings.HasPrefix(in.Link, "/") {
			f.Inputs[i].Link = "/b/" + build + "/" + in.Link
		}
	}
	return f
}
