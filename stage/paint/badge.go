package paint

import (
	"fmt"

	"fettle/build"
	"fettle/unit"
)

// Badge is how a panel's paint stands, in a word and in a sentence.
type Badge struct {
	Word string // one of the words of a clock
	Says string
	Old  bool // closed for more than a day: nothing is urgent any more
}

// urgency orders the words of a clock, most urgent last.
var urgency = map[string]int{Curing: 1, Open: 2, Closed: 3, Closing: 4}

// Badges returns the most urgent clock of every panel that has one; bare metal
// comes before any.
func Badges(b *build.Build, now unit.Moment) map[build.PanelID]Badge {
	badges := map[build.PanelID]Badge{}
	for _, r := range Clocks(b) {
		if r.Coat.At > now {
			continue
		}
		word := r.State(now)
		if word == "" || urgency[word] <= urgency[badges[r.Panel].Word] {
			continue
		}
		badges[r.Panel] = Badge{Word: word, Says: fmt.Sprintf("%s, %s", b.ZoneName(r.Zone), r.Say(now)), Old: word == Closed && now-r.Next.To > 24*60}
	}
	bare, _ := BareMetals(b, now, nil) // refuses readings only, and none are given
	for _, m := range bare {
		badges[m.Panel.ID] = Badge{Word: Bare, Says: m.Say(now)}
	}
	return badges
}
