package coat_test

import (
	"fmt"

	"fettle/engine/coat"
	"fettle/unit"
)

// Four loose doors, 1.72 m², three coats of 6 µm: how much, and what to pour.
func Example() {
	need, err := coat.Need{Area: 1.72, Film: 3 * 6, Solids: 14, Transfer: 0.60, Purge: 0.20}.Litres()
	if err != nil {
		fmt.Println(err)
		return
	}
	recipe := coat.Recipe{Components: []coat.Component{
		{Name: "colour", Parts: 1, Density: 0.98}, {Name: "reducer", Role: coat.Reducer, Parts: 0.8, Density: 0.87}}}
	mix, err := recipe.Pour(need.Bought)
	if err != nil {
		fmt.Println(err)
		return
	}
	grade, _ := coat.GradeFor(coat.DefaultGrades(), 18)
	fmt.Printf("%.2f l on metal, %.2f l in all, reducer %s\n", need.AtGun, need.Bought, grade.Name)
	fmt.Println(mix)
	// Output:
	// 0.37 l on metal, 0.57 l in all, reducer fast
	// colour to 310 g, reducer to 529 g
}

// A cold booth: may clear go on?
func ExampleMaySpray() {
	gate, err := coat.MaySpray(coat.Conditions{Air: 17, RH: 72, Metal: 13.5, Steady: coat.Good, Filters: coat.Good, Clearance: coat.Good, Breathing: coat.Good},
		coat.Asks{Product: "clear", TwoPack: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("go:", gate.Go)
	for _, r := range gate.Against() {
		fmt.Printf("%s: %s\n", r.Name, r.Figure.With)
	}
	// Output:
	// go: false
	// metal over the dew point: 13.5 − 11.9 = 1.6 °C, at least 3
	// metal warm enough: 13.5 °C, at least 16
}

// A morning in the booth: base and clear on four doors.
func ExampleDay_Sheet() {
	eight := unit.Date(20000).At(8, 0)
	base := coat.Product{Name: "base", Coats: 2, Flash: 12, Rate: 1, Mix: 5, Next: coat.Recoat{From: 25, To: 1440}}
	clearCoat := coat.Product{Name: "clear", TwoPack: true, Coats: 2, Flash: 12, Rate: 1, Mix: 10, Pot: 180, Drying: coat.Drying{DustFree: 40}}
	sheet, err := coat.Day{Opens: eight, Closes: eight + 240, Metal: 20, Warm: 45, Clean: 15, Clearance: 5,
		Sets: []coat.Set{{Name: "doors", Panels: 4, Area: 1.72}},
		Runs: []coat.Run{{Product: base, Sets: []string{"doors"}}, {Product: clearCoat, Sets: []string{"doors"}}}}.Sheet()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range sheet.Lines {
		if l.Act == coat.Sprays {
			fmt.Println(l.From.Clock(), l.Product, l.Coat)
		}
	}
	fmt.Println(sheet.Say())
	// Output:
	// 09:05 base 1
	// 09:19 base 2
	// 09:46 clear 1
	// 10:00 clear 2
	// done 10:42, 1 h 18 min to spare
}
