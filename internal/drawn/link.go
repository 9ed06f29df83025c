package drawn

import (
	"slices"
	"strings"

	"fettle/figure"
)

// pages says on which page each kind of thing stands, as a path below a build.
var pages = [...][2]string{
	{"finding/", "/metal/finding/"}, {"panel/", "/metal/panel/"}, {"task/", "/wall#"}, {"person/", "/wall#"},
	{"part/", "/stores#"}, {"load/", "/away#"}, {"payment/", "/tin#"},
}

// Link turns the link of a figure or check, such as finding/F43, into an
// address; base is the build's own, such as /b/pedlar.
func Link(base, link string) string {
	if link == "" || strings.HasPrefix(link, "/") {
		return link
	}
	for _, p := range pages {
		if id, ok := strings.CutPrefix(link, p[0]); ok {
			return base + p[1] + id
		}
	}
	return base + "/" + link
}

// Root returns a figure whose inputs lead to addresses below base.
func Root(base string, f figure.Figure) figure.Figure {
	f.Inputs = slices.Clone(f.Inputs)
	for i := range f.Inputs {
		f.Inputs[i].Link = Link(base, f.Inputs[i].Link)
	}
	return f
}
