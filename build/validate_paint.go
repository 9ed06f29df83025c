package build

import (
	"fmt"
	"slices"
)

// uniquePaint applies rule 1 to the lists of paint.
func (b *Build) uniquePaint() error {
	return first(
		unique("tin", b.Tins, func(t Tin) string { return string(t.ID) }),
		unique("mix", b.Pours, func(p Pour) string { return string(p.ID) }),
		unique("coat", b.Coats, func(c Coat) string { return string(c.ID) }),
		unique("film readings", b.Films, func(f Film) string { return string(f.ID) }),
		unique("warm-up", b.WarmUps, func(w WarmUp) string { return string(w.ID) }),
		unique("card", b.Cards, func(c Card) string { return string(c.ID) }),
		unique("redo", b.Redos, func(r Redo) string { return string(r.ID) }),
		unique("look", b.Looks, func(l Look) string { return string(l.ID) }),
	)
}

// checkPaint checks what was bought, mixed, laid, read and proposed.
func (b *Build) checkPaint() error {
	return first(b.checkSolvent(), each(b.Tins, b.checkTin), each(b.Pours, b.checkPour), each(b.Coats, b.checkCoat), each(b.Films, b.checkFilm),
		each(b.WarmUps, b.checkWarmUp), each(b.Cards, b.checkCard), each(b.Redos, b.checkRedo), each(b.Looks, b.checkLook))
}

// each returns the first fault of a list.
func each[T any](list []T, check func(T) error) error {
	for _, x := range list {
		if err := check(x); err != nil {
			return err
		}
	}
	return nil
}

// checkMixPart applies rule 2 to a place in a product's mix. A product without
// a mix is one part.
func (p Product) checkMixPart(i int, where string) error {
	if i < 0 || i >= max(len(p.Mix), 1) {
		return rule(ruleExists, "the mix of %s has no part %d", p.ID, i).At(where)
	}
	return nil
}

func (b *Build) checkTin(t Tin) error {
	where := "tin " + string(t.ID)
	p := b.Product(t.Product)
	if p == nil {
		return at(missing("paint product", t.Product), where)
	}
	if t.Left > t.Size {
		return rule(ruleWhole, "%s are left of %s", t.Left, t.Size).At(where + ", left_l")
	}
	if t.Boxed != "" && b.Tin(t.Boxed) == nil {
		return at(missing("tin", t.Boxed), where+", boxed")
	}
	return first(p.checkMixPart(t.Part, where+", part"),
		inRange(t.Size, 1, mostLitres, "size", where+", size_l"), inRange(t.Left, 0, mostLitres, "what is left", where+", left_l"))
}

// checkSurface applies rules 1 and 2 to panels and zones, and wants some of
// either.
func (b *Build) checkSurface(panels []PanelID, zones []ZoneID, where string) error {
	if len(panels)+len(zones) == 0 {
		return rule(ruleExists, "it names no panel and no zone").At(where + ", panels")
	}
	for i, id := range panels {
		if b.Panel(id) == nil {
			return at(missing("panel", id), where+", panels")
		}
		if slices.Contains(panels[:i], id) {
			return rule(ruleID, "panel %s is named twice", id).At(where + ", panels")
		}
	}
	return b.checkZones(zones, where+", zones")
}

// checkAir applies rule 3 to the temperatures and the humidity of an act.
func checkAir(metal, air, rh float64, where string) error {
	return first(within(metal, coldest, hottest, "temperature", where+", metal_c"),
		within(air, coldest, hottest, "temperature", where+", air_c"), within(rh, 0, 100, "humidity", where+", rh_percent"))
}

// checkBy applies rule 2 to who did it, where that is said.
func (b *Build) checkBy(id PersonID, where string) error {
	if id != "" && b.Person(id) == nil {
		return at(missing("person", id), where+", by")
	}
	return nil
}

func (b *Build) checkPour(m Pour) error {
	where := "mix " + string(m.ID)
	p := b.Product(m.Product)
	switch {
	case p == nil:
		return at(missing("paint product", m.Product), where)
	case m.At == 0:
		return rule(ruleDates, "the time is missing").At(where + ", at")
	case m.Weighed != 0 && m.Weighed < m.At:
		return rule(ruleDates, "it was weighed back before it was mixed").At(where + ", weighed")
	case m.Left > m.Mixed():
		return rule(ruleWhole, "%s are left of %s", m.Left, m.Mixed()).At(where + ", left_l")
	case len(m.Parts) == 0:
		return rule(ruleExists, "nothing was poured").At(where + ", parts")
	}
	for i, q := range m.Parts {
		if err := b.checkPoured(q, *p, fmt.Sprintf("%s, parts, line %d", where, i+1)); err != nil {
			return err
		}
	}
	return first(b.checkSurface(m.Panels, m.Zones, where), b.checkBy(m.By, where), checkAir(m.Metal, m.Air, m.RH, where),
		inRange(m.Coats, 1, mostCoats, "coats", where+", coats"), inRange(m.Left, 0, mostLitres, "what is left", where+", left_l"),
		inRange(m.LeftMass, 0, mostMass, "what is left", where+", left_kg"))
}

func (b *Build) checkPoured(q Poured, p Product, where string) error {
	if err := p.checkMixPart(q.Part, where+", part"); err != nil {
		return err
	}
	if q.Tin != "" {
		t := b.Tin(q.Tin)
		if t == nil {
			return at(missing("tin", q.Tin), where)
		}
		if !b.holds(*t, p, q.Part) {
			return rule(ruleOrder, "tin %s does not hold part %d of %s", q.Tin, q.Part, p.ID).At(where + ", tin")
		}
	}
	return first(inRange(q.Volume, 1, mostLitres, "volume", where+", volume_l"), inRange(q.Mass, 0, mostMass, "mass", where+", mass_kg"))
}

func (b *Build) checkCoat(c Coat) error {
	where := "coat " + string(c.ID)
	switch {
	case b.Product(c.Product) == nil:
		return at(missing("paint product", c.Product), where)
	case c.At == 0:
		return rule(ruleDates, "the time is missing").At(where + ", at")
	}
	if c.Pour != "" {
		m := b.Pour(c.Pour)
		switch {
		case m == nil:
			return at(missing("mix", c.Pour), where+", pour")
		case m.Product != c.Product:
			return rule(ruleOrder, "mix %s is of %s", c.Pour, m.Product).At(where + ", pour")
		case c.At < m.At:
			return rule(ruleDates, "it was laid before mix %s was made", c.Pour).At(where + ", at")
		}
	}
	return first(b.checkSurface(c.Panels, c.Zones, where), b.checkBy(c.By, where), checkAir(c.Metal, c.Air, c.RH, where),
		inRange(c.Number, 1, mostCoats, "number", where+", number"))
}

func (b *Build) checkFilm(f Film) error {
	where := "film readings " + string(f.ID)
	switch {
	case b.Panel(f.Panel) == nil:
		return at(missing("panel", f.Panel), where)
	case b.Product(f.Product) == nil:
		return at(missing("paint product", f.Product), where)
	case f.Zone != "" && b.Zone(f.Zone) == nil:
		return at(missing("paint zone", f.Zone), where)
	case f.At == 0:
		return rule(ruleDates, "the time is missing").At(where + ", at")
	case len(f.Dry) == 0 || len(f.Dry) > 1000:
		return rule(ruleRange, "it takes 1 to 1,000 readings, not %d", len(f.Dry)).At(where + ", um")
	}
	for _, um := range f.Dry {
		if err := within(um, 0, mostFilm, "film", where+", um"); err != nil {
			return err
		}
	}
	return first(b.checkBy(f.By, where), within(f.Under, 0, mostFilm, "film", where+", under_um"))
}

func (b *Build) checkWarmUp(w WarmUp) error {
	where := "warm-up " + string(w.ID)
	switch {
	case find(b.Bays, w.Bay, func(y *Bay) string { return y.ID }) == nil:
		return at(missing("bay", w.Bay), where)
	case w.At == 0:
		return rule(ruleDates, "the time is missing").At(where + ", at")
	case w.To <= w.From:
		return rule(ruleRange, "%g °C is no warmer than %g °C", w.To, w.From).At(where + ", to_c")
	}
	return first(within(w.From, coldest, hottest, "temperature", where+", from_c"), within(w.To, coldest, hottest, "temperature", where+", to_c"),
		within(w.Air, coldest, hottest, "temperature", where+", air_c"), inRange(w.Minutes, 1, mostMinutes, "minutes", where+", minutes"))
}

func (b *Build) checkRedo(r Redo) error {
	where := "redo " + string(r.ID)
	if b.Task(r.Task) == nil {
		return at(missing("task", r.Task), where+", task")
	}
	for i, c := range r.Coats {
		place := fmt.Sprintf("%s, coats, line %d", where, i+1)
		if b.Product(c.Product) == nil {
			return at(missing("paint product", c.Product), place)
		}
		if err := inRange(c.Coats, 1, mostCoats, "coats", place); err != nil {
			return err
		}
	}
	return first(needText(r.Why, where+", why"), b.checkSurface(r.Panels, r.Zones, where), b.checkLegs(r.Work, where+", work"),
		inRange(r.Days, 0, mostDays, "days", where+", booth_days"), b.checkBy(r.By, where))
}
