package van

import (
	"fmt"

	"fettle/build"
	"fettle/internal/drawn"
	"fettle/internal/web/ui/mark"
	"fettle/stage/paint"
	"fettle/unit"
)

// clock is how many panels' paint stands alike.
type clock struct {
	Word  string
	Mark  mark.Meaning
	Count int
}

// says is the clock's word beside its mark.
func (c clock) says() string {
	if c.Word == paint.Bare {
		return "bare metal"
	}
	return "paint " + c.Word
}

// meanings give the words of a paint clock their marks, in the order in which
// the legend names them.
var meanings = []clock{{Word: paint.Bare, Mark: mark.Slipping}, {Word: paint.Closing, Mark: mark.Slipping}, {Word: paint.Closed, Mark: mark.Lost},
	{Word: paint.Open, Mark: mark.Safe}, {Word: paint.Curing, Mark: mark.Tight}}

// badges are how the paint of panels stands, where something still runs.
func badges(b *build.Build, now unit.Moment, base string) (map[build.PanelID]drawn.Badge, []clock) {
	all := paint.Badges(b, now)
	out := map[build.PanelID]drawn.Badge{}
	clocks := make([]clock, len(meanings))
	copy(clocks, meanings)
	for id, g := range all {
		for i, c := range meanings {
			if g.Word == c.Word && !g.Old {
				clocks[i].Count++
				out[id] = drawn.Badge{Word: g.Word, Says: g.Says, Mark: c.Mark, Href: base + "/paint/panel/" + string(id)}
			}
		}
	}
	return out, clocks
}

// minute tells drawings apart that say how long something has left.
func minute(badges map[build.PanelID]drawn.Badge, now unit.Moment) string {
	if len(badges) == 0 {
		return ""
	}
	return fmt.Sprintf("/%d", now)
}
