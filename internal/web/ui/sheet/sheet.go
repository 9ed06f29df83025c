// Package sheet draws a page as a drawing sheet: a thin frame, the places as
// plates along its top edge, and a title block at its lower right.
package sheet

import (
	"strconv"

	"fettle/internal/web/ui/undo"
	"fettle/unit"
)

// Data is everything a sheet says around its body.
type Data struct {
	Vehicle  string // as written on the drawing; empty on a page of no build
	Build    string
	Place    string // label of the place
	Shown    string // what is drawn here
	Revision string // journal number
	Day      unit.Date
	Person   string
	Units    string
	Plates   []Plate
	Theme    string // day, bright or night
	Neutral  bool   // grey surround, no tint
	Back     string // this page's own address, to come back to
	Live     string // address of the stream of changes; empty when nothing can change
	Style    string // address of the style
	Scripts  []string
	SignedIn bool
	Work     string // address of the page of long work; empty where there is none
	People   string // address of the page of people; empty for who may not see it
	Undo     *undo.Bar
}

// Plate is the enamel plate of a place.
type Plate struct {
	Key, Label, Href string
	Current, Helper  bool
}

// Title is what the browser writes on the tab.
func (d Data) Title() string {
	title := d.Place
	if title == "" {
		title = d.Shown
	}
	if d.Vehicle != "" {
		title += " · " + d.Vehicle
	}
	return title + " · fettle"
}

// places are the plates in their order; helpers stand apart at the right.
func (d Data) places(helper bool) []Plate {
	var out []Plate
	for _, p := range d.Plates {
		if p.Helper == helper {
			out = append(out, p)
		}
	}
	return out
}

// current is the label on the one plate of a folded row.
func (d Data) current() string {
	for _, p := range d.Plates {
		if p.Current {
			return p.Label
		}
	}
	return "Places"
}

var themes = [...]struct{ Key, Label string }{{"day", "Day"}, {"bright", "Bright"}, {"night", "Night"}}

// zones letters and numbers the edge as drawing sheets do.
func zones(n int, letters bool) []string {
	out := make([]string, n)
	for i := range out {
		if letters {
			out[i] = string(rune('A' + i))
		} else {
			out[i] = strconv.Itoa(i + 1)
		}
	}
	return out
}
