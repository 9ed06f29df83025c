package build

import "fmt"

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
		checkParts(p, where), checkGrades(p, where), checkSheet(p, where))
}

func (b *Build) checkZones(zones []ZoneID, where string) error {
	for _, z := range zones {
		if b.zone(z) == nil {
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
