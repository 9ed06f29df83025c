package paint

import (
	"errors"
	"math"

	"fettle/build"
	"fettle/engine/coat"
	"fettle/fault"
	"fettle/unit"
)

// Line is one part of a mix as it is poured.
type Line struct {
	Part   int  // place in the product's mix, from 0
	Graded bool // comes in the product's grades
	coat.Step
}

// Pouring is a mix as it goes into the cup. What cannot be told is left out and
// its reason given in words.
type Pouring struct {
	Mix
	Lines   []Line  // in the order poured, parts of nothing left out
	Weighed bool    // all densities are known; else pour by the lines of the cup
	Density float64 // kg/l of the mix, 0 where not weighed
	Grade   coat.Grade
	NoGrade string
	Pot     float64 // minutes that the mix can be sprayed, 0 where the sheet says none
	NoPot   string
	Still   unit.Volume // of the paint, as it comes in the tin, that the job needs after this mix
	Batches []Batch     // of the paint
}

// Pour lays a mix of a product out for the scale. Metal and cup are °C of the
// metal and of the mix, NaN where nobody has read them: the grade goes by the
// one, the pot life by the other. Fault: Invalid where the sheet's mix cannot
// be poured.
func Pour(b *build.Build, m Mix, metal, cup float64) (Pouring, error) {
	p := b.Product(m.Need.Product)
	if p == nil {
		return Pouring{}, fault.New(fault.NotFound, "there is no paint product %s", m.Need.Product)
	}
	mixed, err := Recipe(*p).Pour(m.Volume.L())
	if err != nil {
		return Pouring{}, err
	}
	out := Pouring{Mix: m, Lines: linesOf(*p, mixed), Weighed: mixed.Weighed, Density: mixed.Density}
	out.grade(*p, metal)
	out.Pot, out.NoPot = PotOf(*p, cup)
	out.Still = max(m.After-pouredOf(b, p.ID), 0)
	out.Batches = batchesFor(b, *p, m.Parts[0].Volume, out.Still)
	return out, nil
}

// linesOf ties the steps of a mix to the places of its parts.
func linesOf(p build.Product, m coat.Mix) []Line {
	list := make([]Line, 0, len(m.Steps))
	for i := range max(len(p.Mix), 1) {
		if i < len(p.Mix) && p.Mix[i] <= 0 {
			continue
		}
		list = append(list, Line{Part: i, Graded: i < len(p.Parts) && p.Parts[i].Graded, Step: m.Steps[len(list)]})
	}
	return list
}

func (o *Pouring) grade(p build.Product, metal float64) {
	graded := false
	for _, l := range o.Lines {
		graded = graded || l.Graded
	}
	switch {
	case !graded:
	case math.IsNaN(metal):
		o.NoGrade = "read the metal first"
	default:
		grade, err := coat.GradeFor(Grades(p), metal)
		if o.Grade = grade; err != nil {
			o.NoGrade = said(err)
		}
	}
}

// PotOf returns the minutes that a product's mix can be sprayed at °C of the cup,
// 0 where its sheet says none or it cannot be told, and then why. A sheet that
// gives other degrees than the engine's for a halving is read as so many of the
// engine's.
func PotOf(p build.Product, cup float64) (float64, string) {
	switch {
	case p.PotLife == 0:
		return 0, ""
	case math.IsNaN(cup):
		return 0, "read the air first"
	case p.PotDouble > 0:
		cup = coat.SheetTemperature + (cup-coat.SheetTemperature)*coat.PotDoubling/p.PotDouble
	}
	pot, err := coat.PotLife(float64(p.PotLife), cup)
	if err != nil {
		return 0, said(err)
	}
	return pot, ""
}

// said is what a fault says, without where: the page shows it at its place.
func said(err error) string {
	if one, ok := errors.AsType[*fault.Fault](err); ok {
		return one.Msg
	}
	return err.Error()
}

// Amiss compares what was poured, grams line by line, with the product's mix:
// what is off, and what to add to each line to be right again. Fault: Invalid
// for weights that cannot be, or where a density is missing.
func Amiss(p build.Product, grams []float64) ([]coat.Off, []float64, error) {
	r := Recipe(p)
	off, err := r.Poured(grams)
	if err != nil {
		return nil, nil, err
	}
	_, add, err := r.Mend(grams)
	return off, add, err
}

// Cautions returns those of spraying a product, the maker's sheet's own first.
func Cautions(p build.Product) []string {
	list := coat.Cautions(TwoPack(p) || p.Caution != "")
	if p.Caution != "" {
		list = append([]string{p.Caution}, list...)
	}
	return list
}
