package loom

import (
	"context"
	"fmt"
	"reflect"

	stage "fettle/stage/loom"
)

// moved is what a person's slip does to the route, in words; nothing where it
// leaves the loom as it is.
func (s sheet) moved(ctx context.Context) []string {
	if reflect.DeepEqual(s.Kept.Loom, s.Build.Loom) && reflect.DeepEqual(s.Kept.Circuits, s.Build.Circuits) {
		return nil
	}
	was, err := stage.Work(ctx, s.Kept)
	if err != nil || s.Wrong != nil {
		return nil
	}
	before, after := routeSums(was), routeSums(s.Loom)
	var list []string
	for i, now := range after {
		if old := before[i]; old.text() != now.text() {
			list = append(list, fmt.Sprintf("%s: %s → %s", now.what, old.text(), now.text()))
		}
	}
	if len(list) == 0 {
		list = append(list, "the route stays as it is")
	}
	return list
}

// sum is one of the numbers that a route comes to.
type sum struct {
	what, form string
	value      float64
}

func (x sum) text() string { return fmt.Sprintf(x.form, x.value) }

func routeSums(s stage.Sheet) [5]sum {
	out := [5]sum{{"length of the loom", "%.2f m", 0}, {"wire to cut", "%.1f m", 0}, {"thickest bundle", "%.1f mm", 0}, {"holes that it passes", "%.0f", 0}, {"to put right", "%.0f", 0}}
	if s.Route == nil {
		return out
	}
	out[0].value = s.Route.Tree.Length / 1000
	for _, w := range s.Route.Wires {
		out[1].value += w.Cut / 1000
	}
	for _, x := range s.Route.Runs {
		out[2].value = max(out[2].value, x.Outside)
	}
	out[3].value, out[4].value = float64(len(s.Route.Holes)), float64(len(s.Route.Findings))
	return out
}
