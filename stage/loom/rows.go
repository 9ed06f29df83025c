package loom

import (
	"context"
	"fmt"
	"slices"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/figure"
	"fettle/takeoff"
)

// Loom is the electrics of a build, worked out.
type Loom struct {
	loom.Result
	Problem loom.Problem `json:"-"`
}

// Row is a circuit or a wire as it comes out.
type Row struct{ loom.Sized }

// LoomOf works the electrics of a build out. Facts that do not make a loom are
// an error with the place.
func LoomOf(ctx context.Context, b *build.Build) (Loom, error) {
	p := ProblemOf(b)
	r, err := loom.Solve(ctx, p, loom.Options{})
	return Loom{r, p}, err
}

// Row returns what a circuit or wire comes to.
func (l Loom) Row(id string) (Row, bool) {
	i := slices.IndexFunc(l.Runs, func(s loom.Sized) bool { return s.ID == id })
	if i < 0 {
		return Row{}, false
	}
	return Row{l.Runs[i]}, true
}

// Of returns the rows of the wires of a circuit, or its own where it has none.
func (l Loom) Of(b *build.Build, circuit string) []Row {
	if row, ok := l.Row(circuit); ok {
		return []Row{row}
	}
	var list []Row
	for _, w := range b.Loom.Wires {
		if row, ok := l.Row(w.ID); ok && w.Circuit == circuit {
			list = append(list, row)
		}
	}
	return list
}

// Drop is what is lost on the way there, with what may be lost.
func (r Row) Drop() figure.Figure {
	f := figure.Figure{Name: "lost on " + r.ID, Text: fmt.Sprintf("%.2f V", r.DropV), Formula: "amps × ohms of the wire, one way; at most what the circuit allows",
		With: fmt.Sprintf("%.3g A, %s mm² at %.0f °C → %.3f V of %.2f V allowed", r.Amps, r.Section, r.Celsius, r.DropV, r.DropMaxV),
		Inputs: []figure.Input{{Name: "section", Value: r.Section + " mm²", Source: figure.Worked, Note: "decided by " + string(r.Rule)},
			{Name: "amps", Value: fmt.Sprintf("%.3g A", r.Amps), Source: figure.Decided, Note: r.State}}}
	if r.DropMaxV > 0 && r.DropV > r.DropMaxV {
		f.Caution = "More is lost than the circuit allows: it will be dim or slow."
	}
	return f
}

// FuseRow is a fuse as it comes out.
type FuseRow struct{ loom.FuseLoad }

// Fuse returns what a fuse comes to.
func (l Loom) Fuse(name string) FuseRow {
	for _, f := range l.Fuses {
		if f.Name == name {
			return FuseRow{f}
		}
	}
	return FuseRow{}
}

// Says whether the fuse does, and how much it matters where not.
func (f FuseRow) Says() (string, takeoff.Weight) {
	switch {
	case f.Flag:
		return fmt.Sprintf("%.1f A asked of %g A: split it, or less load", f.NeedA, f.Amps), takeoff.Slipping
	case f.Inrush == "opens":
		return "it opens when what it feeds starts", takeoff.Slipping
	case f.Inrush == "may open":
		return "it may open when what it feeds starts", takeoff.Tight
	}
	return "holds", ""
}
