package coat

const ownersText = "an example, the owner's text to edit: local rules are often stricter, and the rule itself counts"

// ExampleLimits returns two tables to begin from, as read from published rules
// [40CFR59B] [2004/42/EC]. They are examples and the owner's text from then on:
// nothing in this package knows or applies a rule.
func ExampleLimits() []Limits {
	return []Limits{
		{"national rule, US, as an example", ownersText, []Limit{
			{"pretreatment wash primer", 780, ""},
			{"primer or primer surfacer", 580, ""},
			{"primer sealer", 550, ""},
			{"single- or two-stage topcoat", 600, ""},
			{"topcoat of three or more stages", 630, "base, mid coats and clear together"},
			{"multi-coloured topcoat", 680, ""},
			{"specialty coating", 840, "figure by trade habit: read the rule"},
		}},
		{"solvent directive, EU, as an example", ownersText + "; said not to apply to vintage or historic vehicles", []Limit{
			{"preparatory", 850, "water not discounted"},
			{"pre-cleaner", 200, ""},
			{"body filler or stopper", 250, ""},
			{"surfacer, filler or metal primer", 540, ""},
			{"wash primer", 780, ""},
			{"topcoat", 420, "all types"},
			{"special finishes", 840, ""},
		}},
	}
}
