package trim

import (
	"fettle/engine/pattern"
	"fettle/fault"
	"fettle/figure"
)

// Recipe makes a cover, or a strip of one, from a few measures.
type Recipe struct {
	Key, Name, Says string
	Measures        []Measure
	work            func(m measures) (made, error)
}

// Made is what a recipe comes to: its figures, and what is cut for it.
type Made struct {
	Figures []figure.Figure
	Pieces  []pattern.Piece
	Seams   []pattern.Seam // between those pieces
}

// measures are the numbers given; of one that was not is asked for by its habit.
type measures struct {
	of  func(name string) pattern.Given
	all func(name string) []pattern.Given
}

// made is what a recipe gives.
type made struct {
	amounts []pattern.Amount
	pieces  []pattern.Piece
	seams   []pattern.Seam
}

// Measure is one number that a recipe asks for.
type Measure struct {
	Name, Label, Unit, Hint string
	Share                   bool // in per cent
	Many                    bool // several numbers
}

// Work works a recipe out. Measures are in mm, shares in per cent; those that
// are not given are the habit of the trade, or a fault that names them.
func (r Recipe) Work(given map[string][]float64) (Made, error) {
	all := func(name string) []pattern.Given {
		var list []pattern.Given
		for _, m := range r.Measures {
			for _, v := range given[name] {
				if m.Name == name {
					if m.Share {
						v /= 100
					}
					list = append(list, pattern.Given{Value: v, Source: figure.Measured, Note: "entered by hand"})
				}
			}
		}
		return list
	}
	of := func(name string) pattern.Given {
		if list := all(name); len(list) > 0 {
			return list[0]
		}
		return pattern.Given{}
	}
	got, err := r.work(measures{of, all})
	out := Made{Pieces: got.pieces, Seams: got.seams}
	for _, a := range got.amounts {
		out.Figures = append(out.Figures, a.Working)
	}
	return out, err
}

// RecipeOf is the recipe of a key.
func RecipeOf(key string) (Recipe, error) {
	for _, r := range Recipes() {
		if r.Key == key {
			return r, nil
		}
	}
	return Recipe{}, fault.New(fault.NotFound, "there is no recipe %q", key)
}
