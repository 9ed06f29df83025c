package coat

// Cautions that stand wherever the act is planned [HSE-MVR] [29CFR1910.107].
// The maker's sheet, local codes and licensed people come first.
const (
	CautionIsocyanate = "Two-pack paint holds isocyanates: air-fed breathing, a filter mask is not enough; never lift the visor in the mist; gloves and overall; health checks. Baking, sanding what is part cured and washing guns count too."
	CautionClearance  = "Nobody enters without air-fed breathing before the booth's measured clearance time is over: the mist cannot be seen."
	CautionIgnition   = "Solvent vapour is heavier than air and burns: no flame, switch or heater in the zone; gun and vehicle earthed; extinguisher at hand; solvent rags in a lidded metal bin."
	CautionSheet      = "The maker's sheet rules over every figure here; local codes and licensed people over both."
	CautionLimits     = "Limits of solvent are the owner's text, no legal advice: local rules are often stricter."
)

// Cautions returns those of spraying, two-pack or not, in the order to print.
func Cautions(twoPack bool) []string {
	list := []string{CautionClearance, CautionIgnition, CautionSheet}
	if twoPack {
		list = append([]string{CautionIsocyanate}, list...)
	}
	return list
}
