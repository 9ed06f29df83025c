package build

import (
	"fmt"
	"math"
)

func (b *Build) checkProduct(p Product) error {
	where := "paint product " + string(p.ID)
	if p.Solids <= 0 || p.Solids > 100 || p.Transfer <= 0 || p.Transfer > 1 || p.Film <= 0 || p.Film > mostFilm {
		return rule(ruleRange, "solids, transfer or film is out of range").At(where)
	}
	if p.Task != "" && b.Task(p.Task) == nil {
		return at(missing("task", p.Task), where+", needed_for")
	}
	if p.Use != "" {
		if err := oneOf(p.Use, Uses(), where+", use"); err != nil {
			return err
		}
	}
	if p.Colour != "" && b.Colour(p.Colour) == nil {
		return at(missing("colour", p.Colour), where+", colour")
	}
	return first(b.checkZones(p.Zones, where+", zones"), b.checkOver(p, where),
		inRange(p.Coats, 1, mostCoats, "coats", where), inRange(p.Rounds, 0, mostCoats, "rounds", where),
		inRange(p.Purge, 0, mostPurge, "purge", where+", purge_l"), inRange(p.FillPurge, 0, mostPurge, "purge", where+", fill_purge_l"),
		checkParts(p, where), checkGrades(p, where), checkSheet(p, where),
		checkExtra(p, where), checkViscosity(p.Viscosity, where+", viscosity"), b.checkSolventOf(p))
}

// checkExtra applies rules 3, 4 and 11 to "+ x %": the last part of the mix is
// what the percentage comes to.
func checkExtra(p Product, where string) error {
	e, where := p.Extra, where+", extra"
	if e == (Extra{}) {
		return nil
	}
	last := len(p.Mix) - 1
	if last < 1 {
		return rule(ruleWhole, "a percentage on top of a mix of one part").At(where)
	}
	if err := first(oneOf(e.Of, []ExtraOf{OfAll, OfPaint}, where+", of"), within(e.Percent, 0.01, 100, "the percentage", where+", percent")); err != nil {
		return err
	}
	if want := e.Parts(p.Mix[:last]); math.Abs(want-p.Mix[last]) > 1e-3 {
		return rule(ruleWhole, "%g %% of %s comes to %.4g parts, the mix has %g", e.Percent, e.Of, want, p.Mix[last]).At(where)
	}
	return nil
}

// checkViscosity applies rules 3 and 10: seconds are of a cup.
func checkViscosity(v Viscosity, where string) error {
	if v == (Viscosity{}) {
		return nil
	}
	return first(needText(v.Cup, where+", cup"), within(v.Seconds, 1, 300, "seconds", where+", seconds"))
}

// checkSolventOf applies rule 2 to the class that a product is in.
func (b *Build) checkSolventOf(p Product) error {
	if p.Solvent != "" && b.SolventClass(p.Solvent) == nil {
		return at(missing("solvent class", p.Solvent), "paint product "+string(p.ID)+", solvent_class")
	}
	return nil
}

// checkSolvent applies rules 1, 3 and 10 to the owner's table.
func (b *Build) checkSolvent() error {
	t := b.Solvent
	if t.Title == "" && t.Note == "" && len(t.Classes) == 0 {
		return nil
	}
	if err := first(needText(t.Title, "solvent_limits, title"), needText(t.Note, "solvent_limits, note"),
		unique("solvent class", t.Classes, func(c SolventClass) string { return string(c.ID) })); err != nil {
		return err
	}
	return each(t.Classes, func(c SolventClass) error {
		where := "solvent class " + string(c.ID)
		return first(needText(c.Name, where+", name"), within(c.Most, 1, 2000, "the limit", where+", most_g_l"))
	})
}

func (b *Build) checkZones(zones []ZoneID, where string) error {
	for _, z := range zones {
		if b.Zone(z) == nil {
			return at(missing("paint zone", z), where)
		}
	}
	return nil
}

// checkOver applies rule 2, and rule 6 to the product itself.
func (b *Build) checkOver(p Product, where string) error {
	for _, id := range p.Over {
		if id == p.ID {
			return rule(ruleLoop, "it goes over itself").At(where + ", over")
		}
		if b.Product(id) == nil {
			return at(missing("paint product", id), where+", over")
		}
	}
	return nil
}

func checkParts(p Product, where string) error {
	if len(p.Parts) > 0 && len(p.Parts) != len(p.Mix) {
		return rule(ruleWhole, "%d parts are told of, the mix has %d", len(p.Parts), len(p.Mix)).At(where + ", mix_parts")
	}
	for i, m := range p.Parts {
		place := fmt.Sprintf("%s, mix_parts, line %d", where, i+1)
		if err := first(within(m.Density, 0, 10, "density", place), within(m.Solids, 0, 100, "solids", place),
			within(m.VOC, 0, 2000, "VOC", place), within(m.Water, 0, 2000, "water", place), within(m.Exempt, 0, 2000, "exempt solvent", place),
			within(m.ExemptDensity, 0, 10, "density", place), inRange(m.TinSize, 0, mostLitres, "the tin", place),
			inRange(m.TinPrice, 0, mostMoney, "price", place)); err != nil {
			return err
		}
	}
	return nil
}

func checkGrades(p Product, where string) error {
	for i, g := range p.Grades {
		place := fmt.Sprintf("%s, grades, line %d", where, i+1)
		if err := first(needText(g.Name, place+", name"), within(g.From, coldest, hottest, "temperature", place),
			within(g.To, g.From, hottest, "temperature", place)); err != nil {
			return err
		}
	}
	return nil
}

// checkSheet applies rule 3 to times and limits, and rule 5 to the window.
func checkSheet(p Product, where string) error {
	t, times := p.Times, where+", times"
	if t.RecoatTo > 0 && t.RecoatTo < t.RecoatFrom {
		return rule(ruleDates, "the window closes before it opens").At(times)
	}
	for _, n := range []int{p.Flash, p.PotLife, t.Induction, t.RecoatFrom, t.RecoatTo, t.DustFree, t.Handle, t.Sand} {
		if err := inRange(n, 0, mostMinutes, "minutes", times); err != nil {
			return err
		}
	}
	return first(within(p.LowMetal, coldest, hottest, "temperature", where+", lowest_metal_c"),
		within(p.HighRH, 0, 100, "humidity", where+", highest_rh_percent"),
		within(p.DryDouble, 0, 100, "degrees", where+", drying_doubles_c"), within(p.PotDouble, 0, 100, "degrees", where+", pot_doubles_c"),
		inRange(p.ShelfLife, 0, 10*mostDays, "days", where+", shelf_life_days"),
		inRange(p.Missed.Coats, 0, mostCoats, "coats", where+", missed_window"), within(p.Missed.Scuff, 0, 100, "hours", where+", missed_window"))
}
