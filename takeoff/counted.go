package takeoff

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/unit"
)

// counted returns the hours of a task for as many circuits as there are: those
// it was planned with × circuits ÷ circuits they were planned for. The first
// task of the loom that is not finished also has what finished ones owe.
func counted(b *build.Build, t build.Task) []build.Leg {
	legs, n := t.Legs, b.Loom.Settings.HoursFor
	if !counts(b, t) || n == 0 {
		return slices.Clone(legs)
	}
	legs = times(legs, len(b.Circuits), n)
	if first := openLoom(b); first != nil && first.ID == t.ID {
		for _, l := range Owed(b) {
			legs = add(legs, l.Trade, l.Hours)
		}
	}
	return legs
}

// counts tells whether the hours of a task are for circuits: not those of what
// is finished, nor while no circuit is listed.
func counts(b *build.Build, t build.Task) bool {
	return t.Stage == "loom" && !t.Findings && t.State != build.Finished && len(b.Circuits) > 0
}

// openLoom is the first task of the loom that is not finished, or nil.
func openLoom(b *build.Build) *build.Task {
	for i, t := range b.Tasks {
		if counts(b, t) {
			return &b.Tasks[i]
		}
	}
	return nil
}

// Owed is the hours that finished tasks of the loom no longer hold: those for
// circuits that came onto the list after they were finished.
func Owed(b *build.Build) []build.Leg {
	var legs []build.Leg
	n := b.Loom.Settings.HoursFor
	for _, t := range b.Tasks {
		more := len(b.Circuits) - t.Circuits
		if t.Stage != "loom" || t.State != build.Finished || t.Circuits == 0 || n == 0 || more <= 0 {
			continue
		}
		for _, l := range times(t.Legs, more, n) {
			legs = add(legs, l.Trade, l.Hours)
		}
	}
	return legs
}

func times(legs []build.Leg, circuits, of int) []build.Leg {
	var list []build.Leg
	for _, l := range legs {
		list = append(list, build.Leg{Trade: l.Trade, Hours: scale(l.Hours, float64(circuits)/float64(of))})
	}
	return list
}

// countedFigure shows what counted did to the hours of a trade.
func countedFigure(b *build.Build, t build.Task, trade build.TradeID, f *figure.Figure) {
	n, now, stated := b.Loom.Settings.HoursFor, len(b.Circuits), of(t.Legs, trade)
	if !counts(b, t) {
		return
	}
	if n == 0 {
		f.Inputs = append(f.Inputs, figure.Input{Name: "circuits", Value: fmt.Sprint(now), Source: figure.Decided, Note: "nobody has said how many the hours are for: a circuit more adds none"})
		return
	}
	f.Formula = "hours planned × circuits ÷ circuits they were planned for, less hours booked"
	f.Inputs = append(f.Inputs,
		figure.Input{Name: "planned with", Value: stated.String(), Source: figure.Decided, Note: fmt.Sprintf("for %d circuits, %s each", n, unit.Hours(stated.H()/float64(n))), Link: "task/" + string(t.ID)},
		figure.Input{Name: "circuits", Value: fmt.Sprint(now), Source: figure.Decided, Note: "a few more or less count so; many more share what is done but once, so look at the hours again"})
	with := fmt.Sprintf("%s × %d ÷ %d", stated, now, n)
	if owed := of(Owed(b), trade); owed > 0 && openLoom(b).ID == t.ID {
		with += " + " + owed.String()
		f.Inputs = append(f.Inputs, figure.Input{Name: "of finished tasks", Value: owed.String(), Source: figure.Worked, Note: "circuits that came onto the list after they were finished"})
	}
	f.With = with + "; " + f.With
}
