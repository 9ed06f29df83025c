package plan

import (
	"fettle/build"
	"fettle/rates"
	"fettle/stage/assembly"
	"fettle/stage/away"
	"fettle/stage/body"
	"fettle/stage/book"
	"fettle/stage/look"
	"fettle/stage/loom"
	"fettle/stage/metal"
	"fettle/stage/paint"
	"fettle/stage/strip"
	"fettle/stage/trim"
	"fettle/takeoff"
)

// stage is what the plan asks of a part of the job.
type stage interface {
	Name() string
	TakeOff(b *build.Build, r rates.Rates) takeoff.List
}

// stages lists every stage. Adding one is a folder and a line here.
func stages() []stage {
	return []stage{strip.Stage{}, look.Stage{}, metal.Stage{}, body.Stage{}, paint.Stage{},
		loom.Stage{}, trim.Stage{}, assembly.Stage{}, away.Stage{}, book.Stage{}}
}

// takeOffs returns what every stage makes of the facts.
func takeOffs(b *build.Build, r rates.Rates) []takeoff.List {
	lists := make([]takeoff.List, 0, len(stages()))
	for _, s := range stages() {
		lists = append(lists, s.TakeOff(b, r))
	}
	return lists
}
