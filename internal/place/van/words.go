package van

import (
	"fmt"
	"math"
	"strings"
)

// money says what reaches the cause at each price, and the aim.
func money(f front) string {
	c, n := f.Build.Currency, f.Plan.Money.Net
	return fmt.Sprintf("%s to %s, aim %s", c.Format(n.Low), c.Format(n.High), c.Format(f.Plan.Money.Aim))
}

// anchor makes an element's ID of a state.
func anchor(state string) string { return strings.ReplaceAll(state, " ", "-") }

// sentence ends a text with a stop and begins it with a capital letter.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + strings.TrimSuffix(s[1:], ".") + "."
}

// chances says how far the odds may be off.
func chances(f front) string {
	points := max(1, math.Ceil(100*f.Plan.Odds.StdErr))
	if points == 1 {
		return fmt.Sprintf("give or take a point, %d builds played", f.Plan.Odds.Runs)
	}
	return fmt.Sprintf("give or take %.0f points, %d builds played", points, f.Plan.Odds.Runs)
}
