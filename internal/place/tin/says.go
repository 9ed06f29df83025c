package tin

import (
	"fmt"
	"math"
	"strings"

	"fettle/plan"
	"fettle/unit"
)

// says puts a drift into two sentences: where the stage ends and what that
// costs, and the task that ran over.
func (s sheet) says(d plan.Drift) string {
	way, falls := "over", "falls"
	if d.Over < 0 {
		way, falls = "under", "rises"
	}
	stage := strings.ToUpper(d.Stage[:1]) + d.Stage[1:]
	text := fmt.Sprintf("%s ends at about %s instead of %s, %s %s, about %s of cash. What reaches the cause %s from %s to %s.",
		stage, round(d.Ends), round(d.Planned), round(max(d.Over, -d.Over)), way, s.money(tens(max(d.Cost, -d.Cost))), falls, s.money(d.Without), s.money(tens(d.Net)))
	if d.Cause != "" {
		text += fmt.Sprintf(" The cause: %s %s ran %.2f×.", d.Cause, d.Name, d.Factor)
	}
	return text
}

// round gives whole hours: a forecast knows no more.
func round(e unit.Effort) string { return fmt.Sprintf("%.0f h", math.Round(e.H())) }

// tens rounds an amount to whole tens of the currency.
func tens(m unit.Money) unit.Money { return unit.Money(unit.MulDiv(int64(m), 1, 1000)) * 1000 }
