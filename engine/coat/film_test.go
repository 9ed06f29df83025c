package coat_test

import (
	"math"
	"strings"
	"testing"

	"fettle/engine/coat"
	"fettle/fault"
)

// near fails where two numbers differ by more than so much.
func near(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if !(math.Abs(got-want) <= by) {
		t.Errorf("%s = %v, want %v ± %v", what, got, want, by)
	}
}

// refused fails where an error is none of kind Invalid, says no place or no hint.
func refused(t *testing.T, what string, err error, holds string) {
	t.Helper()
	if err == nil {
		t.Errorf("%s: no error", what)
		return
	}
	text := err.Error() + " | " + fault.HintOf(err)
	if fault.KindOf(err) != fault.Invalid || !strings.Contains(text, holds) || !strings.Contains(err.Error(), ": ") || fault.HintOf(err) == "" {
		t.Errorf("%s: %v error %q, want invalid with place, hint and %q", what, fault.KindOf(err), text, holds)
	}
}

func good(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// TestNeed_OfTheTrade is the worked value of docs/engine/coat.md.
func TestNeed_OfTheTrade(t *testing.T) {
	l, err := coat.Need{Area: 22, Film: 60, Solids: 45, Transfer: 0.55, Waste: 0.10}.Litres()
	good(t, err)
	near(t, "rate", l.Rate, 7.5, 1e-12)
	near(t, "ft² a gallon", l.Rate*coat.FeetPerGallon, 305.6, 0.05)
	near(t, "theory", l.Theory, 2.93, 0.005)
	near(t, "at gun", l.AtGun, 5.33, 0.005)
	near(t, "bought", l.Bought, 5.87, 0.005)
	// 1604 × solids as a part ÷ mil is the same rate in ft² a gallon.
	near(t, "1604 rule", 1604.17*0.45/(60/25.4), l.Rate*coat.FeetPerGallon, 0.01)
}

// TestNeed_OfTheDemo has the litres of the demo's products as its plan prints
// them; the tolerance is half of the last digit.
func TestNeed_OfTheDemo(t *testing.T) {
	for _, tt := range []struct {
		name                                       string
		solids, coats, film, transfer, purge, area float64
		want, by                                   float64
	}{
		{"epoxy", 42, 2, 25, 0.60, 0.60, 52.46, 11.0, 0.05},
		{"high build, a round", 48, 3, 45, 0.62, 0.30, 18.69, 8.8, 0.05},
		{"sealer black", 38, 1, 25, 0.62, 0.20, 9.00, 1.16, 0.005},
		{"sealer light grey", 38, 1, 25, 0.62, 0.20, 15.56, 1.85, 0.005},
		{"limewash", 18, 3, 9, 0.60, 0.30, 15.56, 4.2, 0.05},
		{"limewash over black, six coats", 18, 6, 9, 0.60, 0.30, 15.56, 8.1, 0.05},
		{"slackwater", 14, 3, 6, 0.60, 0.30, 9.00, 2.23, 0.005},
		{"clear", 46, 3, 22, 0.62, 0.60, 24.56, 6.3, 0.05},
		{"harbour grey", 45, 2, 30, 0.62, 0.30, 25.35, 5.75, 0.005},
	} {
		l, err := coat.Need{Area: tt.area, Film: tt.coats * tt.film, Solids: tt.solids, Transfer: tt.transfer, Purge: tt.purge}.Litres()
		good(t, err)
		near(t, tt.name, l.Bought, tt.want, tt.by+1e-9)
	}
}

// TestNeed_FourLooseDoors: 0.37 l on metal and 0.20 l of purge are
// 0.57 l, 0.32 l of colour and 0.25 l of reducer.
func TestNeed_FourLooseDoors(t *testing.T) {
	l, err := coat.Need{Area: 1.72, Film: 18, Solids: 14, Transfer: 0.60, Purge: 0.20}.Litres()
	good(t, err)
	near(t, "at gun", l.AtGun, 0.37, 0.005)
	near(t, "ready to spray", l.Bought, 0.57, 0.005)
	m, err := coat.Recipe{Components: []coat.Component{{Name: "colour", Parts: 1}, {Name: "reducer", Role: coat.Reducer, Parts: 0.8}}}.Pour(l.Bought)
	good(t, err)
	near(t, "colour", m.Steps[0].Ml, 320, 5)
	near(t, "reducer", m.Steps[1].Ml, 250, 5)
	near(t, "cup after", m.Steps[1].Line, 1000*l.Bought, 1e-9)
	grade, err := coat.GradeFor(coat.DefaultGrades(), 18)
	if err != nil || grade.Name != "fast" {
		t.Errorf("reducer for 18 °C is %q, %v, want fast", grade.Name, err)
	}
}

func TestWetFilm(t *testing.T) {
	for _, tt := range []struct{ film, solids, thinned, want float64 }{
		{20, 50, 0, 40}, {20, 50, 0.15, 46}, {0, 50, 0, 0},
	} {
		got, err := coat.WetFilm(tt.film, tt.solids, tt.thinned)
		good(t, err)
		near(t, "wet film", got, tt.want, 1e-9)
	}
	loss, err := coat.LossFactor(0.5, 0.1)
	good(t, err)
	near(t, "loss factor", loss, 1/0.45, 1e-12)
}

func TestCoatsAndPasses(t *testing.T) {
	for _, tt := range []struct {
		film, coat float64
		want       int
	}{{60, 22, 3}, {66, 22, 3}, {66.1, 22, 4}, {18, 6, 3}, {0.3, 0.1, 3}, {1, 25, 1}} {
		if got, err := coat.Coats(tt.film, tt.coat); got != tt.want || err != nil {
			t.Errorf("coats of %g for %g = %d, %v, want %d", tt.coat, tt.film, got, err, tt.want)
		}
	}
	// A fan of 250 lapped by half steps 125 mm: 250, 375, … 1000 takes seven.
	for _, tt := range []struct {
		height, overlap, step float64
		want                  int
	}{{1000, 0.5, 125, 7}, {200, 0.5, 125, 1}, {1000, 0.75, 62.5, 13}, {1001, 0.5, 125, 8}} {
		n, step, err := coat.Passes(tt.height, 250, tt.overlap)
		if n != tt.want || step != tt.step || err != nil {
			t.Errorf("passes over %g at %g = %d of %g, %v, want %d of %g", tt.height, tt.overlap, n, step, err, tt.want, tt.step)
		}
	}
}

func TestFilm_Refuses(t *testing.T) {
	base := coat.Need{Area: 1, Film: 20, Solids: 40, Transfer: 0.6}
	for _, tt := range []struct {
		holds string
		do    func(*coat.Need)
	}{
		{"written 0.60", func(n *coat.Need) { n.Transfer = 60 }},
		{"solids", func(n *coat.Need) { n.Solids = 0 }},
		{"no reading", func(n *coat.Need) { n.Film = math.NaN() }},
		{"area", func(n *coat.Need) { n.Area = -1 }},
		{"waste", func(n *coat.Need) { n.Waste = 10 }},
		{"purge", func(n *coat.Need) { n.Purge = math.Inf(1) }},
	} {
		n := base
		tt.do(&n)
		_, err := n.Litres()
		refused(t, tt.holds, err, tt.holds)
	}
	_, err := coat.Coats(60, 0.02)
	refused(t, "coats of nothing", err, "1 mil is 25.4 µm")
	_, err = coat.WetFilm(20, 50, 15)
	refused(t, "thinned by 15", err, "written 0.15")
}
