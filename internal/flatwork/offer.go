package flatwork

import (
	"bytes"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"fettle/engine/flatten/longflat"
	"fettle/internal/web/ui/surface"
)

// For is a search for cuts beside what is asked now. It fits where that is what
// was searched, with nothing but its own cuts taken from the top; what it found
// begins then behind the last that is taken.
func (w Work) For(now longflat.Order) Work {
	was := w.Order
	if w.Answer == nil || !bytes.Equal(was.Surface, now.Surface) || !reflect.DeepEqual(was.Material, now.Material) || was.Grain != now.Grain || len(now.Cuts) < len(was.Cuts) {
		return w
	}
	left := *w.Answer
	for i, cut := range now.Cuts {
		switch rounds := left.Proposals; {
		case i < len(was.Cuts) && slices.Equal(cut, was.Cuts[i]):
		case i >= len(was.Cuts) && len(rounds) > 0 && len(rounds[0]) > 0 && slices.Equal(cut, rounds[0][0].Path):
			left.Proposals = rounds[1:]
		default:
			return w
		}
	}
	w.Answer, w.Fits = &left, true
	return w
}

// Words are how a place speaks of cuts.
type Words struct {
	Title, None, Says string
	Stale             string    // in the place of Says where the search fits no longer
	Kinds             [4]string // a dart, a slit, a parting cut, a cut from a hole
	Gains             func(outside, gain float64) string
}

// Offered is how a search for cuts stands, and of each round of it the two best.
// Link is the page with a cut taken.
func (w Work) Offered(words Words, link func(path string) string) surface.Offered {
	o := surface.Offered{Bar: w.Bar, Waits: w.Open(), Looked: w.Answer != nil, Title: words.Title, None: words.None, Says: words.Says}
	if !o.Looked {
		return o
	}
	if o.Stale = !w.Fits; o.Stale {
		o.Says = words.Stale
	}
	for _, round := range w.Answer.Proposals {
		for n, c := range round[:min(2, len(round))] {
			places := make([]string, len(c.Path))
			for i, v := range c.Path {
				places[i] = fmt.Sprint(v)
			}
			kind := words.Kinds[int(c.Opening)%len(words.Kinds)]
			if n > 0 {
				kind = "or a " + kind
			}
			path := strings.Join(places, " ")
			o.List = append(o.List, surface.Offer{Path: path, Link: link(path), Says: fmt.Sprintf("%s, %.0f mm: %s", kind, c.Length, words.Gains(c.Outside, c.Gain))})
		}
	}
	return o
}
