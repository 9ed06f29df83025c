package away

import (
	"strings"

	"fettle/build"
)

// lines parts a specification into the lines of a note.
func lines(spec string) []string {
	var list []string
	for _, l := range strings.Split(spec, ";") {
		if l = strings.TrimSpace(l); l != "" {
			list = append(list, l)
		}
	}
	return list
}

// bagsFor names the bags that are out while the load is.
func (s sheet) bagsFor(c card) string {
	if !c.out() {
		return ""
	}
	var names []string
	for _, x := range s.bagsOut() {
		names = append(names, string(x.ID))
	}
	return strings.Join(names, ", ")
}

// picture is the last photo of the load that shows it so.
func (c card) picture(what string) build.PhotoHash {
	for i := len(c.Photos) - 1; i >= 0; i-- {
		if c.Photos[i].What == what {
			return c.Photos[i].Hash
		}
	}
	return ""
}
