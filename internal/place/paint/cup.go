package paint

import (
	"fmt"
	"math"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/mark"
	stage "fettle/stage/paint"
)

// near is how many seconds off the aim a cup may read, by trade habit.
const near = 1

// aimed says how thin a product is sprayed, by its sheet, or nothing.
func aimed(p build.Product) string {
	if p.Viscosity.Seconds == 0 {
		return ""
	}
	return plainNumber(p.Viscosity.Seconds) + " s in " + p.Viscosity.Cup
}

// cupBlank heads the room for the cup's seconds on paper.
func cupBlank(p build.Product) string {
	if aimed(p) == "" {
		return "Cup, s:"
	}
	return "Cup, s; aim " + aimed(p) + ":"
}

// aimElsewhere are the seconds aimed at in the other cups.
func aimElsewhere(p build.Product) []stage.CupSeconds {
	var list []stage.CupSeconds
	same, err := stage.SameInCups(p.Viscosity.Cup, p.Viscosity.Seconds)
	for _, one := range same {
		if err == nil && one.Cup != p.Viscosity.Cup {
			list = append(list, one)
		}
	}
	return list
}

// against compares a reading with the aim of the sheet, in the sheet's cup; no
// word where there is no aim or the reading cannot be told in that cup.
func (c cupReading) against(aim build.Viscosity) (meaning mark.Meaning, word, more string) {
	for _, one := range c.Same {
		if aim.Seconds == 0 || one.Cup != aim.Cup {
			continue
		}
		off := one.Seconds - aim.Seconds
		switch {
		case math.Abs(off) <= near:
			return mark.Safe, "as aimed", fmt.Sprintf("within %d s", near)
		case off > 0:
			return mark.Tight, "too thick", fmt.Sprintf("by %.0f s in %s: bring mix and cup to 20 °C and read again, then thin it no further than the sheet allows", off, aim.Cup)
		}
		return mark.Tight, "too thin", fmt.Sprintf("by %.0f s in %s: bring mix and cup to 20 °C and read again; it may run, and reducer does not come out again", -off, aim.Cup)
	}
	return "", "", ""
}

// cupReading is an efflux cup read by a painter, and what it comes to.
type cupReading struct {
	Name    string
	Seconds string
	Same    []stage.CupSeconds // mm²/s, and the seconds of other cups
}

// readCup reads the cup's line of the card; nothing typed is no fault.
func readCup(f *web.Form) cupReading {
	c := cupReading{Name: f.Raw("cup"), Seconds: f.Raw("seconds")}
	if c.Name == "" || c.Seconds == "" {
		return c
	}
	same, err := stage.SameInCups(c.Name, reading(f, "seconds", 1, 300))
	if c.Same = same; err != nil && f.Errors.Of("seconds") == "" {
		f.Fail("seconds", "cannot be: "+err.Error())
	}
	return c
}
