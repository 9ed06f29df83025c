package desk

import (
	"slices"
	"strings"

	"fettle/figure"
)

// Linked returns a figure whose inputs lead to pages of a build: a link such
// as part/Q11 becomes /b/pedlar/part/Q11. Findings and panels have their pages
// below Metal.
func Linked(build string, f figure.Figure) figure.Figure {
	f.Inputs = slices.Clone(f.Inputs)
	for i, in := range f.Inputs {
		switch kind, _, _ := strings.Cut(in.Link, "/"); {
		case in.Link == "" || kind == "":
		case kind == "finding" || kind == "panel":
			f.Inputs[i].Link = "/b/" + build + "/metal/" + in.Link
		default:
			f.Inputs[i].Link = "/b/" + build + "/" + in.Link
		}
	}
	return f
}
