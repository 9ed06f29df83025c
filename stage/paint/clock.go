package paint

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/coat"
	"fettle/unit"
)

// Running is where the paint on one zone of a panel stands: the last coat, when
// more may go on, and what the film bears already. Times are those of the
// product's sheet at the metal's temperature when the coat was laid.
type Running struct {
	Panel   build.PanelID
	Zone    build.ZoneID
	Product build.Product
	Coat    build.Coat
	Next    coat.Clock   // when the next coat or product may go on; without a name where nothing is waited for
	More    bool         // it is another coat of the same product
	Dry     []coat.Clock // dust free, handle, sand or cut
	Missed  string       // what it costs when Next has closed
	Trouble string       // why Next cannot be trusted, such as metal too cold to know
}

// Clocks returns where the last coat of every zone of every panel stands, in
// the order of the panels. On a panel that was sanded since, polished or fitted,
// nothing is waited for.
func Clocks(b *build.Build) []Running {
	var list []Running
	for _, p := range b.Panels {
		for _, a := range p.Areas {
			coats := b.CoatsOn(p.ID, a.Zone)
			if len(coats) == 0 {
				continue
			}
			last := coats[len(coats)-1]
			if product := b.Product(last.Product); product != nil {
				list = append(list, running(b, p, a.Zone, *product, last))
			}
		}
	}
	return list
}

func running(b *build.Build, panel build.Panel, zone build.ZoneID, p build.Product, last build.Coat) Running {
	r := Running{Panel: panel.ID, Zone: zone, Product: p, Coat: last}
	if settled(panel) {
		return r
	}
	name, from, more := follows(b, p, zone, last)
	r.More = more
	if name != "" && (from > 0 || p.Times.RecoatTo > 0) {
		r.Next.Name = name
		if r.Missed = p.Missed.Words; r.Missed == "" {
			r.Missed = "see the maker's sheet"
		}
		recoat := Recoat(p)
		recoat.From = float64(from)
		window, err := recoat.Window(last.At, last.Metal)
		if err != nil {
			r.Trouble = err.Error()
			window.To, _ = recoat.Latest(last.At, last.Metal) // refused with the same words
			window.From = max(window.To, last.At)
		}
		r.Next.Window = window
	}
	if !more {
		r.Dry, _ = Drying(p).Clocks(last.At, last.Metal) // what is too cold to know is said by Trouble
	}
	return r
}

// settled reports whether no coat is waited for: what was laid has been sanded,
// or is the last.
func settled(p build.Panel) bool {
	return p.State == build.Blocked || p.State == build.CutPolished || p.State == build.Fitted
}

// follows names what goes on after a coat, and after how many minutes at 20 °C.
func follows(b *build.Build, p build.Product, zone build.ZoneID, last build.Coat) (name string, from int, more bool) {
	if last.Number < p.Coats {
		return fmt.Sprintf("coat %d of %s", last.Number+1, p.Name), flashOf(p), true
	}
	switch over := Next(b, zone, p.ID); len(over) {
	case 0:
		return "", 0, false
	case 1:
		return names(b, over) + " over " + p.Name, p.Times.RecoatFrom, false
	}
	return "next product over " + p.Name, p.Times.RecoatFrom, false
}

// waitsFor reports whether a product is what the clock waits for.
func (r Running) waitsFor(b *build.Build, id build.ProductID) bool {
	if r.More {
		return id == r.Product.ID
	}
	return slices.Contains(Next(b, r.Zone, r.Product.ID), id)
}

// Words of a clock as it is shown: never by colour alone.
const (
	Curing  = "curing"  // nothing may go on yet
	Open    = "open"    // the next coat or product may go on
	Closing = "closing" // the window is about to close
	Closed  = "closed"  // it has closed: what it costs is said
	Bare    = "bare"    // bare metal, the clock of flash rust runs
)

// State returns the word of the clock at a moment; nothing where nothing is
// waited for and the film bears all that its sheet speaks of.
func (r Running) State(now unit.Moment) string {
	if r.Next.Name == "" {
		if left(r.Dry, now) {
			return Curing
		}
		return ""
	}
	switch state, _ := r.Next.At(now); state {
	case coat.NotYet:
		return Curing
	case coat.Open:
		return Open
	case coat.Closing:
		return Closing
	default:
		return Closed
	}
}

func left(clocks []coat.Clock, now unit.Moment) bool {
	return slices.ContainsFunc(clocks, func(c coat.Clock) bool { return now < c.From })
}

// Say tells in a sentence how the zone stands at a moment.
func (r Running) Say(now unit.Moment) string {
	var words []string
	if r.Next.Name != "" {
		words = append(words, r.Next.Say(now))
		if state, _ := r.Next.At(now); state == coat.Closed {
			words = append(words, r.Missed)
		}
	}
	for _, c := range r.Dry {
		if now < c.From {
			words = append(words, c.Say(now))
		}
	}
	if len(words) == 0 {
		return r.Product.Name + " has had all the time its sheet asks"
	}
	return strings.Join(words, "; ")
}

// Wait is what a countdown shows: the minutes until the clock's next turn and
// what happens then. Minutes since it closed are negative.
func (r Running) Wait(now unit.Moment) (minutes int, until string) {
	if r.Next.Name == "" {
		for _, c := range r.Dry {
			if now < c.From {
				return int(c.From - now), c.Name
			}
		}
		return 0, ""
	}
	state, n := r.Next.At(now)
	switch {
	case state == coat.NotYet:
		return n, "opens"
	case state == coat.Closed:
		return -n, "closed"
	case n < 0:
		return 0, "open, does not close"
	}
	return n, "closes"
}
