package metal

import (
	"fmt"

	"fettle/build"
	"fettle/unit"
)

// Spring says how far a bend springs back, as the shop's own strips of the
// gauge and about the radius read; without one it says that a strip is to tell.
// No number is made up: it hangs on the steel, the radius and the tool.
func Spring(b *build.Build, gauge unit.Length, bend build.Bend) (says string, told bool) {
	var sum float64
	var from []string
	for _, s := range b.Strips {
		if s.Springs > 0 && alike(s, gauge, bend) {
			sum += s.Springs / s.Bend.Angle
			from = append(from, string(s.ID))
		}
	}
	if len(from) == 0 {
		return "springs back by what no strip has told", false
	}
	by := sum / float64(len(from)) * bend.Angle
	return fmt.Sprintf("springs back by about %.1f° (strip %s): turn the leaf to %.1f°, then check with the gauge", by, from[len(from)-1], bend.Angle+by), true
}
