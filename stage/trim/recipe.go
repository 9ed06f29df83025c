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
	work            func(of func(name string) pattern.Given, all func(name string) []pattern.Given) ([]pattern.Amount, error)
}

// Measure is one number that a recipe asks for.
type Measure struct {
	Name, Label, Unit, Hint string
	Share                   bool // in per cent
	Many                    bool // several numbers
}

// Work works a recipe out. Measures are in mm, shares in per cent; those that
// are not given are the habit of the trade, or a fault that names them.
func (r Recipe) Work(given map[string][]float64) ([]figure.Figure, error) {
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
	amounts, err := r.work(of, all)
	var list []figure.Figure
	for _, a := range amounts {
		list = append(list, a.Working)
	}
	return list, err
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

// Recipes lists them.
func Recipes() []Recipe {
	thick := Measure{Name: "thickness", Label: "Thickness of the material", Unit: "mm"}
	seam := Measure{Name: "allowance", Label: "Seam allowance", Unit: "mm", Hint: "empty: 12"}
	return []Recipe{
		{"wheel", "Steering wheel strip", "Laced along the inside of the rim; at the spokes it is cut into segments.", []Measure{
			{Name: "rim", Label: "Rim across", Unit: "mm", Hint: "middle of grip to middle of grip"}, {Name: "grip", Label: "Grip across", Unit: "mm"},
			{Name: "stretch", Label: "Width the leather gives", Unit: "%", Hint: "empty: 3", Share: true}, {Name: "pitch", Label: "Stitch", Unit: "mm", Hint: "empty: 4"}}, wheel},
		{"piping", "Piping strips", "The cover of the cord, and how many strips it takes.", []Measure{
			{Name: "length", Label: "Seam, all of it", Unit: "mm"}, {Name: "corners", Label: "Corners on the way"}, {Name: "cord", Label: "Cord across", Unit: "mm", Hint: "empty: 4"}, thick, seam,
			{Name: "piece", Label: "The material a strip comes from is long", Unit: "mm"}}, piping},
		{"headliner", "Headliner on bows", "Measure each panel before it is taken down: bows look alike and differ.", []Measure{
			{Name: "spans", Label: "Spans, from the front", Unit: "mm", Hint: "front edge to first bow, bow to bow, last bow to rear edge", Many: true}, {Name: "widths", Label: "Widths, from the front", Unit: "mm", Hint: "at the front edge, each bow and the rear edge: one more than spans", Many: true},
			{Name: "bow", Label: "Bow across", Unit: "mm", Hint: "empty: 8"}, {Name: "ease", Label: "Ease of a sleeve", Unit: "mm", Hint: "empty: 10"}, seam, {Name: "sides", Label: "Over at sides and ends", Unit: "mm", Hint: "empty: 50"}}, headliner},
		{"gaiter", "Gaiter", "A cone round a lever, or a pyramid of panels.", []Measure{
			{Name: "foot", Label: "Round the ring at the floor", Unit: "mm"}, {Name: "head", Label: "Round the collar", Unit: "mm"}, {Name: "height", Label: "Height, lever upright", Unit: "mm"}, {Name: "travel", Label: "Way of the collar to one side", Unit: "mm", Hint: "empty: none"}, {Name: "panels", Label: "Panels", Hint: "empty: a cone with one seam"}}, gaiter},
		{"strap", "Strap", "Folded so that its edges meet behind, sewn down both sides.", []Measure{{Name: "width", Label: "Finished width", Unit: "mm"}, thick, {Name: "turned", Label: "Turned in", Unit: "mm", Hint: "empty: raw edges meet"}},
			func(of func(string) pattern.Given, _ func(string) []pattern.Given) ([]pattern.Amount, error) {
				return one(pattern.Strap(of("width"), of("thickness"), of("turned")))
			}},
		{"boxing", "Boxing strip", "Round a cushion between its faces.", []Measure{{Name: "round", Label: "Round the sewn line of the face", Unit: "mm"}, {Name: "height", Label: "Height", Unit: "mm"}, seam},
			func(of func(string) pattern.Given, _ func(string) []pattern.Given) ([]pattern.Amount, error) {
				a, _, err := pattern.Boxing(of("round"), of("height"), of("allowance"))
				return one(a, err)
			}},
		{"pleats", "Pleated panel", "What sewn lines take up: sew a test piece, rules of thumb differ by two.", []Measure{{Name: "width", Label: "Finished width", Unit: "mm"}, {Name: "lines", Label: "Sewn lines"}, {Name: "loss", Label: "Loss of one line, from the test piece", Unit: "mm"}, seam},
			func(of func(string) pattern.Given, _ func(string) []pattern.Given) ([]pattern.Amount, error) {
				return one(pattern.PleatedWidth(of("width"), of("lines"), of("loss"), of("allowance")))
			}},
		{"cover", "Cover under its foam", "A cover is sewn smaller than the foam it goes over.", []Measure{{Name: "girth", Label: "Girth of the foam", Unit: "mm"}, {Name: "under", Label: "Under size", Unit: "%", Hint: "empty: 4", Share: true}},
			func(of func(string) pattern.Given, _ func(string) []pattern.Given) ([]pattern.Amount, error) {
				return one(pattern.Girth(of("girth"), of("under")))
			}},
	}
}

func one(a pattern.Amount, err error) ([]pattern.Amount, error) {
	if err != nil {
		return nil, err
	}
	return []pattern.Amount{a}, nil
}

func wheel(of func(string) pattern.Given, _ func(string) []pattern.Given) ([]pattern.Amount, error) {
	w, err := pattern.Wheel{Rim: of("rim"), Grip: of("grip"), Stretch: of("stretch"), Pitch: of("pitch")}.Strip()
	if err != nil {
		return nil, err
	}
	return []pattern.Amount{w.Length, w.Width, w.Wrinkle, w.Strain, w.Stitches}, nil
}

func piping(of func(string) pattern.Given, _ func(string) []pattern.Given) ([]pattern.Amount, error) {
	p, err := pattern.Piping{Length: of("length"), Corners: of("corners"), Cord: of("cord"), Thickness: of("thickness"), Allowance: of("allowance"), Piece: of("piece")}.Strips()
	if err != nil {
		return nil, err
	}
	return []pattern.Amount{p.Width, p.Length, p.Each, p.Count, p.Area}, nil
}

func headliner(of func(string) pattern.Given, all func(string) []pattern.Given) ([]pattern.Amount, error) {
	h, err := pattern.Headliner{Spans: all("spans"), Widths: all("widths"), Bow: of("bow"), Ease: of("ease"), Allowance: of("allowance"), Sides: of("sides")}.Panels()
	if err != nil {
		return nil, err
	}
	return append([]pattern.Amount{h.Cloth, h.Sleeve}, h.Sleeves...), nil
}

func gaiter(of func(string) pattern.Given, _ func(string) []pattern.Given) ([]pattern.Amount, error) {
	g, err := pattern.Gaiter{Foot: of("foot"), Head: of("head"), Height: of("height"), Travel: of("travel"), Panels: int(of("panels").Value)}.Pattern()
	if err != nil {
		return nil, err
	}
	if g.Angle.Value == 0 {
		return []pattern.Amount{g.Slant}, nil
	}
	return []pattern.Amount{g.Slant, g.Angle}, nil
}
