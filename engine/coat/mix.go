package coat

import (
	"fmt"
	"math"

	"fettle/fault"
)

// Role is what a component does in a mix.
type Role uint8

// The roles.
const (
	Paint Role = iota
	Hardener
	Reducer
)

// Component is one tin of a mix.
type Component struct {
	Name     string
	Role     Role
	Parts    float64  // by volume; 0 where Extra says how much
	Extra    float64  // % on top, counted as the recipe's basis says
	Density  float64  // kg/l, 0 where nobody knows
	Solids   float64  // % by volume, 0 for a reducer
	Volatile Volatile // what flies off, 0 where nobody asks
}

// Basis says what "+ 10 %" is 10 % of.
type Basis uint8

// The bases. A sheet that says "4:1 + 10 %" mostly means of all five parts;
// where it does not say, ask.
const (
	NotSaid Basis = iota
	OfPaint       // of the parts that are paint
	OfAll         // of all parts
)

// Recipe is the components of a mix in the order they are poured.
type Recipe struct {
	Components []Component
	Basis      Basis // needed where a component has Extra
}

// Parts returns the parts by volume, "+ x %" worked in. A part of nothing, or
// of what is left unsaid, is refused.
func (r Recipe) Parts() ([]float64, error) {
	if len(r.Components) == 0 {
		return nil, fault.New(fault.Invalid, "a mix of nothing").At("mix").WithHint("give at least the paint itself")
	}
	paint, all := 0.0, 0.0
	for _, c := range r.Components {
		if err := c.refuse(); err != nil {
			return nil, err
		}
		all += c.Parts
		if c.Role == Paint {
			paint += c.Parts
		}
	}
	parts := make([]float64, len(r.Components))
	for i, c := range r.Components {
		parts[i] = c.Parts
		if c.Extra == 0 {
			continue
		}
		of, err := r.Basis.of(paint, all)
		if err != nil {
			return nil, err.At(c.Name)
		}
		parts[i] = of * c.Extra / 100
	}
	return parts, nil
}

func (b Basis) of(paint, all float64) (float64, *fault.Fault) {
	of := all
	switch b {
	case OfPaint:
		of = paint
	case OfAll:
	default:
		return 0, fault.New(fault.Invalid, "+ x %% of what, the paint or all of it?").WithHint("the maker's sheet says; most mean all parts together")
	}
	if of <= 0 {
		return 0, fault.New(fault.Invalid, "+ x %% of nothing").WithHint("give the parts it is counted on")
	}
	return of, nil
}

func (c Component) refuse() error {
	switch {
	case c.Parts == 0 && c.Extra == 0:
		return fault.New(fault.Invalid, "a part of 0").At(c.Name).WithHint("leave out what is not in the mix")
	case c.Parts != 0 && c.Extra != 0:
		return fault.New(fault.Invalid, "both a part and + x %%").At(c.Name).WithHint("give one of the two")
	case !(c.Parts >= 0 && c.Parts <= 1e4):
		return fault.New(fault.Invalid, "%g parts", c.Parts).At(c.Name).WithHint("parts are like 3:1:1")
	}
	if err := within(c.Name+", extra", c.Extra, 0, 100, "%", "+ 5 % is written 5"); err != nil {
		return err
	}
	hint := "water weighs 1.00 kg/l; weigh 100 ml to learn it"
	if c.Density > 100 {
		hint = "densities are in kg/l: 1350 g/l is written 1.35"
	}
	if err := within(c.Name+", density", c.Density, 0, 10, "kg/l", hint); err != nil {
		return err
	}
	return within(c.Name+", solids", c.Solids, 0, 100, "%", "solids are by volume")
}

// ByWeight returns the recipe by volume of components whose parts are by
// weight. All densities must be known.
func ByWeight(components []Component) (Recipe, error) {
	r := Recipe{Components: make([]Component, len(components))}
	for i, c := range components {
		if !(c.Density > 0) {
			return Recipe{}, fault.New(fault.Invalid, "no density").At(c.Name).WithHint("weigh 100 ml: grams ÷ 100 are kg/l")
		}
		if c.Extra != 0 {
			return Recipe{}, fault.New(fault.Invalid, "+ x %% in a mix by weight").At(c.Name).WithHint("give it as a part by weight")
		}
		c.Parts /= c.Density
		r.Components[i] = c
	}
	_, err := r.Parts()
	return r, err
}

// Weights returns the parts by weight, the first component counting 100.
func (r Recipe) Weights() ([]float64, error) {
	m, err := r.Pour(1)
	if err != nil {
		return nil, err
	}
	if !m.Weighed {
		return nil, fault.New(fault.Invalid, "a density is missing").At("mix").WithHint("weigh 100 ml: grams ÷ 100 are kg/l")
	}
	list := make([]float64, len(m.Steps))
	for i, s := range m.Steps {
		list[i] = 100 * s.Grams / m.Steps[0].Grams
	}
	return list, nil
}

// Step is one pour of a mix.
type Step struct {
	Name  string
	Role  Role
	Ml    float64
	Grams float64 // 0 where the mix is not weighed
	Line  float64 // ml in the cup after it
	Scale float64 // grams on the scale after it, the scale set to 0 with the empty cup
}

// Mix is a recipe at a volume.
type Mix struct {
	Litres  float64
	Steps   []Step
	Weighed bool    // all densities are known; else pour by the lines of the cup
	Density float64 // kg/l of the mix, 0 where not weighed
	Solids  float64 // % by volume of the mix
}

// Pour returns what to pour for litres ready to spray, with running totals.
func (r Recipe) Pour(litres float64) (Mix, error) {
	parts, err := r.Parts()
	if err != nil {
		return Mix{}, err
	}
	if err := above("volume", litres, mostLitres, "l", "give the litres ready to spray"); err != nil {
		return Mix{}, err
	}
	all := 0.0
	for _, p := range parts {
		all += p
	}
	m := Mix{Litres: litres, Weighed: true}
	line, scale := 0.0, 0.0
	for i, c := range r.Components {
		s := Step{Name: c.Name, Role: c.Role, Ml: 1000 * litres * parts[i] / all}
		line += s.Ml
		s.Line = line
		if m.Weighed = m.Weighed && c.Density > 0; m.Weighed {
			s.Grams = s.Ml * c.Density
			scale += s.Grams
			s.Scale = scale
		}
		m.Solids += c.Solids * parts[i] / all
		m.Steps = append(m.Steps, s)
	}
	if !m.Weighed {
		for i := range m.Steps {
			m.Steps[i].Grams, m.Steps[i].Scale = 0, 0
		}
		return m, nil
	}
	m.Density = scale / line
	return m, nil
}

// From returns the mix that follows from grams of one component in the cup:
// what the others must be.
func (r Recipe) From(component int, grams float64) (Mix, error) {
	if component < 0 || component >= len(r.Components) {
		return Mix{}, fault.New(fault.Invalid, "the mix has no component %d", component+1).At("mix")
	}
	one, err := r.Pour(1)
	if err != nil {
		return Mix{}, err
	}
	name := r.Components[component].Name
	if !one.Weighed {
		return Mix{}, fault.New(fault.Invalid, "a density is missing").At("mix").WithHint("weigh 100 ml of each: grams ÷ 100 are kg/l")
	}
	if err := above(name, grams, 1e6, "g", "read the scale"); err != nil {
		return Mix{}, err
	}
	return r.Pour(grams / one.Steps[component].Grams)
}

// String writes the pours: "972 g, 1224 g, 1433 g on the scale".
func (m Mix) String() string {
	text := ""
	for i, s := range m.Steps {
		if i > 0 {
			text += ", "
		}
		if m.Weighed {
			text += fmt.Sprintf("%s to %.0f g", s.Name, math.Round(s.Scale))
		} else {
			text += fmt.Sprintf("%s to %.0f ml", s.Name, math.Round(s.Line))
		}
	}
	return text
}
