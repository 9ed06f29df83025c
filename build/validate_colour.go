package build

import (
	"fmt"
	"regexp"

	"fettle/unit"
)

var srgb = regexp.MustCompile(`^#[0-9A-Fa-f]{6}$`)

const mostNote = 4000 // bytes of a note on a colour

func (b *Build) checkCard(c Card) error {
	where := "card " + string(c.ID)
	switch {
	case b.Product(c.Product) == nil:
		return at(missing("paint product", c.Product), where)
	case c.Over != "" && b.Product(c.Over) == nil:
		return at(missing("paint product", c.Over), where+", over")
	case c.Day == 0:
		return rule(ruleDates, "the day is missing").At(where + ", day")
	case len(c.Steps) == 0:
		return rule(ruleExists, "it has no step").At(where + ", steps")
	}
	if err := checkReadings(c.Grounds, where+", grounds"); err != nil {
		return err
	}
	for i, s := range c.Steps {
		place := fmt.Sprintf("%s, steps, line %d", where, i+1)
		if len(s.Readings) == 0 {
			return rule(ruleReading, "it has no reading").At(place)
		}
		if err := first(inRange(s.Coats, 1, mostCoats, "coats", place), within(s.Film, 0, mostFilm, "film", place+", film_um"),
			checkReadings(s.Readings, place)); err != nil {
			return err
		}
	}
	return first(b.checkBy(c.By, where), inRange(c.Chosen, 0, len(c.Steps), "the step", where+", chosen"))
}

func checkReadings(list []Reading, where string) error {
	for i, r := range list {
		if err := checkReading(r, fmt.Sprintf("%s, reading %d", where, i+1)); err != nil {
			return err
		}
	}
	return nil
}

// checkReading applies rule 12.
func checkReading(r Reading, where string) error {
	kinds := 0
	for _, given := range []bool{len(r.Spectrum) > 0, len(r.Lab) > 0, r.RGB != ""} {
		if given {
			kinds++
		}
	}
	switch {
	case kinds != 1:
		return rule(ruleReading, "it needs one of spectrum, lab and rgb, and has %d", kinds).At(where)
	case len(r.Spectrum) > 0 && len(r.Spectrum) != Bands:
		return rule(ruleReading, "a spectrum has %d values, not %d", Bands, len(r.Spectrum)).At(where + ", spectrum")
	case len(r.Lab) > 0 && len(r.Lab) != 3:
		return rule(ruleReading, "a Lab has three values, not %d", len(r.Lab)).At(where + ", lab")
	case r.RGB != "" && !srgb.MatchString(r.RGB):
		return rule(ruleReading, "%q is no colour like #1F4A55", r.RGB).At(where + ", rgb")
	}
	for _, v := range r.Spectrum {
		if err := within(v, 0, 2, "reflectance", where+", spectrum"); err != nil {
			return err
		}
	}
	for _, v := range r.Lab {
		if err := within(v, -200, 200, "value", where+", lab"); err != nil {
			return err
		}
	}
	return first(within(r.Within, 0, 50, "error", where+", within"), oneOf(r.Angle, []string{"", "face", "flop"}, where+", angle"))
}

// checkColour applies rules 1, 10 and 12 to a colour that somebody draws.
func checkColour(c Colour) error {
	where := "colour " + string(c.ID)
	if c.ID == "" {
		return rule(ruleID, "the ID is missing").At(where)
	}
	if err := needText(c.Name, where+", name"); err != nil {
		return err
	}
	for _, s := range []struct{ name, rgb string }{{"face", c.Face}, {"flop", c.Flop}} {
		if !srgb.MatchString(s.rgb) && (s.name == "face" || s.rgb != "") {
			return rule(ruleReading, "%q is no colour like #1F4A55", s.rgb).At(where + ", " + s.name)
		}
	}
	return inRange(len(c.Note), 0, mostNote, "length", where+", note")
}

func (b *Build) checkLook(l Look) error {
	where := "look " + string(l.ID)
	if err := first(needText(l.Name, where+", name"), inRange(l.Break.Z, -mostLength, mostLength, "height", where+", break_line, z_mm")); err != nil {
		return err
	}
	for _, z := range []ZoneID{l.Break.Upper, l.Break.Lower} {
		if z != "" && b.Zone(z) == nil {
			return at(missing("paint zone", z), where+", break_line")
		}
	}
	for i, z := range l.Zones {
		if err := b.checkLookZone(z, fmt.Sprintf("%s, zones, line %d", where, i+1)); err != nil {
			return err
		}
	}
	for _, p := range l.Panels {
		if err := b.checkLookPanel(p, where+", panels"); err != nil {
			return err
		}
	}
	return nil
}

func (b *Build) checkLookZone(z LookZone, where string) error {
	if b.Zone(z.Zone) == nil {
		return at(missing("paint zone", z.Zone), where)
	}
	if z.Colour != "" && b.Colour(z.Colour) == nil {
		return at(missing("colour", z.Colour), where)
	}
	for _, id := range []ProductID{z.Base, z.Undercoat} {
		if id != "" && b.Product(id) == nil {
			return at(missing("paint product", id), where)
		}
	}
	if p := b.Product(z.Base); p != nil && !p.Use.ShowsColour() {
		return rule(ruleWord, "%s is no base and no single stage", z.Base).At(where + ", base")
	}
	if p := b.Product(z.Undercoat); p != nil && p.Use != Sealer {
		return rule(ruleWord, "%s is no sealer", z.Undercoat).At(where + ", undercoat")
	}
	return nil
}

// checkLookPanel applies rule 11: a look divides a panel, it adds nothing to it.
func (b *Build) checkLookPanel(l LookPanel, where string) error {
	p := b.Panel(l.Panel)
	if p == nil {
		return at(missing("panel", l.Panel), where)
	}
	var sum unit.Area
	for _, a := range l.Areas {
		if b.Zone(a.Zone) == nil {
			return at(missing("paint zone", a.Zone), where+", "+string(l.Panel))
		}
		if a.Area < 0 {
			return rule(ruleRange, "an area is negative").At(where + ", " + string(l.Panel))
		}
		sum += a.Area
	}
	if sum != p.Area() {
		return rule(ruleWhole, "the areas add up to %s, the panel has %s", sum, p.Area()).At(where + ", " + string(l.Panel))
	}
	return nil
}
