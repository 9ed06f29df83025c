package paint

import (
	"fettle/internal/web"
	stage "fettle/stage/paint"
)

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
