package van

import (
	"fmt"
	"math"
)

// money says what reaches the cause at each price, and the aim.
func money(f front) string {
	c, n := f.Build.Currency, f.Plan.Money.Net
	return fmt.Sprintf("%s to %s, aim %s", c.Format(n.Low), c.Format(n.High), c.Format(f.Plan.Money.Aim))
}

// chances says how far the odds may be off.
func chances(f front) string {
	points := max(1, math.Ceil(100*f.Plan.Odds.StdErr))
	if points == 1 {
		return fmt.Sprintf("give or take a point, %d builds played", f.Plan.Odds.Runs)
	}
	return fmt.Sprintf("give or take %.0f points, %d builds played", points, f.Plan.Odds.Runs)
}

// findings says how many findings still need work.
func findings(f front) string {
	switch {
	case len(f.Build.Findings) == 0:
		return "nothing found yet"
	case f.Open == 0:
		return fmt.Sprintf("all %d findings are done", len(f.Build.Findings))
	case f.Open == 1:
		return "1 open finding, " + f.Hours
	}
	return fmt.Sprintf("%d open findings, %s", f.Open, f.Hours)
}

func panels(n int) string {
	if n == 1 {
		return "panel"
	}
	return "panels"
}
