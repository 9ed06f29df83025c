// Package metal is the stage of findings, panels and fit.
package metal

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/takeoff"
)

// Stage turns findings and panels into hours, parts and choices.
type Stage struct{}

// Name is the stage's name in the task list.
func (Stage) Name() string { return "metal" }

const welding = "Welding: no fuel, trim or solvent near; screen, extinguisher and a watch for half an hour after. Lead and old paint: air-fed hood, no dry grinding. A load path is for a competent person."

// TakeOff returns the stage's work, wants and checks.
func (s Stage) TakeOff(b *build.Build, _ rates.Rates) takeoff.List {
	list := takeoff.Of(b, s.Name())
	for i := range list.Work {
		list.Work[i].Cautions = append([]string{welding}, list.Work[i].Cautions...)
		list.Work[i].Figure.Caution = welding
	}
	list.Checks = append(list.Checks, undecided(b)...)
	list.Checks = append(list.Checks, choices(b)...)
	list.Checks = append(list.Checks, lacking(b)...)
	list.Checks = append(list.Checks, folds(b)...)
	list.Checks = append(list.Checks, outdated(b)...)
	return list
}

// undecided lists findings nobody has decided about: their hours are missing.
func undecided(b *build.Build) []takeoff.Check {
	var checks []takeoff.Check
	for _, f := range b.Findings {
		if f.Remedy == "" {
			checks = append(checks, takeoff.Check{
				ID: "undecided/" + string(f.ID), Weight: takeoff.Slipping, Link: "finding/" + string(f.ID),
				Says: fmt.Sprintf("%s (%s) has no remedy yet, so its hours are in no date", f.ID, f.What),
				Do:   "decide: repair, replace or make",
				Figure: figure.Figure{Name: "remedy", Text: "not decided", Formula: "a finding without a remedy has no hours",
					With: string(f.ID) + ", " + f.Size.String()},
			})
		}
	}
	return checks
}

// choices offers a bought part where the other side's is on the list, its own
// is not, and the finding is to be repaired, as long as the metal is not cut.
// What was found on arrival was decided with the first orders.
func choices(b *build.Build) []takeoff.Check {
	var checks []takeoff.Check
	for _, f := range b.Findings {
		if f.Remedy != build.Repair || f.State != build.Settled || len(f.Panels) != 1 || f.Found == "" || f.Found == "arrival" {
			continue
		}
		panel := b.Panel(f.Panels[0])
		across := map[string]string{"L": "R", "R": "L"}[panel.Side]
		own, other := partFor(b, panel, panel.Side), partFor(b, panel, across)
		if own == nil && other != nil {
			checks = append(checks, choice(b, f, panel, other))
		}
	}
	return checks
}

// partFor returns the part that bears a panel's name and a side, or nil.
func partFor(b *build.Build, p *build.Panel, side string) *build.Part {
	for i, part := range b.Parts {
		if side != "" && strings.EqualFold(part.Name, p.Name+" "+side) {
			return &b.Parts[i]
		}
	}
	return nil
}

// choice sets a repair against the part already quoted for the other side.
func choice(b *build.Build, f build.Finding, p *build.Panel, other *build.Part) takeoff.Check {
	price := b.Currency.Format(other.Price)
	return takeoff.Check{
		ID: "choose/" + string(f.ID), Weight: takeoff.Tight, Link: "finding/" + string(f.ID),
		Says: fmt.Sprintf("%s: buy %s %s (%d working days, about %s) or repair in %s", f.ID, p.Name, p.Side, other.Lead, price, f.Hours()),
		Do:   "decide today: price and lead are as quoted for " + string(other.ID) + " " + other.Name,
		Figure: figure.Figure{
			Name: "buy or repair", Text: price + " or " + f.Hours().String(),
			Formula: "price and lead of the part already quoted for the other side, against the hours of the repair",
			With:    fmt.Sprintf("%s, %d working days, against %s", price, other.Lead, f.Hours()),
			Inputs: []figure.Input{
				{Name: other.Name, Value: price, Source: figure.Sheet, Link: "part/" + string(other.ID)},
				{Name: "repair", Value: f.Hours().String(), Source: figure.Decided, Link: "finding/" + string(f.ID)},
			},
		},
	}
}
