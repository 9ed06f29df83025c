package coat

import (
	"fmt"
	"math"

	"fettle/fault"
)

// Grade is a hardener or reducer for a range of metal temperatures in °C.
type Grade struct {
	Name     string
	From, To float64
	Note     string // why it was chosen where two could be
}

// DefaultGrades returns the trade's habit: fast 16 to 19, standard 20 to 25,
// slow 26 to 32 °C. The maker's own list replaces it.
func DefaultGrades() []Grade {
	return []Grade{{Name: "fast", From: 16, To: 19}, {Name: "standard", From: 20, To: 25}, {Name: "slow", From: 26, To: 32}}
}

// GradeFor returns the grade for metal of °C. Between two grades it is the
// nearer one, the faster where both are as near, for the metal cools while
// solvent leaves; where two hold, the one whose middle is nearer. Beyond the
// coldest and the warmest grade there is none and it is refused.
func GradeFor(grades []Grade, metal float64) (Grade, error) {
	if len(grades) == 0 {
		return Grade{}, fault.New(fault.Invalid, "no grades").At("grades").WithHint("enter the maker's grades with their temperatures")
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, g := range grades {
		if !(g.From <= g.To) {
			return Grade{}, fault.New(fault.Invalid, "from %g to %g °C", g.From, g.To).At("grade " + g.Name).WithHint("give the lower temperature first")
		}
		low, high = min(low, g.From), max(high, g.To)
	}
	if err := within("metal", metal, low, high, "°C", "no grade is made for it: bring the metal to the range"); err != nil {
		return Grade{}, err
	}
	best, holds := grades[0], 0
	for _, g := range grades {
		if g.away(metal) == 0 {
			holds++
		}
		if a, b := g.away(metal), best.away(metal); a < b || a == b && (a == 0 && g.middle(metal) < best.middle(metal) || a > 0 && g.To < best.To) {
			best = g
		}
	}
	switch {
	case holds == 0:
		best.Note = fmt.Sprintf("%g °C lies between two grades: %s is the nearer; for large panels the slower one flows better", metal, best.Name)
	case holds > 1:
		best.Note = fmt.Sprintf("%d grades hold at %g °C: %s is nearest to its middle", holds, metal, best.Name)
	}
	return best, nil
}

func (g Grade) away(metal float64) float64   { return max(0, g.From-metal, metal-g.To) }
func (g Grade) middle(metal float64) float64 { return math.Abs(metal - (g.From+g.To)/2) }
