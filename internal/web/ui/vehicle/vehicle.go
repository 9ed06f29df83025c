// Package vehicle draws one side of a vehicle as a line drawing: ink outlines
// in three weights, panels filled by state with the hatches of ui/hatch, and
// findings as numbered flags on leader lines. Every panel is a link with a name,
// so the drawing works without script and by keyboard. It takes plain values
// and knows no build; millimetres of the view's own plane go in.
package vehicle

import (
	"fmt"

	"fettle/internal/web/ui/mark"
)

// View is one side of the vehicle, ready to be drawn.
type View struct {
	ID, Label string
	Plane     string     // "xz", "yz" or "xy", as package build has it
	Flip      bool       // draw with the first axis reversed
	Box       [4]float64 // mm: least of both axes, greatest of both axes
	Details   []Line
	Panels    []Panel
	Pins      []Pin
	Badges    []Badge
	Ways      []Way
	Dots      []Dot
	Pick      string // an address that a touched point is added to; empty for none
	Ground    bool   // a point beside the panels may be picked too
	Fill      bool   // a touched point goes into the fields x, y and z of the page
}

// Way is line work that leads somewhere, such as a bundle of wires.
type Way struct {
	Line
	Says, Href string
	Lit        bool // the one that the page is about
}

// Dot is a place on the vehicle that leads somewhere and needs no flag.
type Dot struct {
	X, Y       float64 // mm in the view's plane
	Says, Href string
	Draft, Lit bool
}

// Line is line work that belongs to no panel.
type Line struct {
	Path         string // absolute M L C Q Z, mm
	Weight, Fill string // as package build has them
}

// Panel is one piece of the body in this view.
type Panel struct {
	ID, Name, State string
	Colour          string  // #rrggbb, shown from the state "in colour" on
	Under           string  // another colour below Break, in views that show height; empty for one colour
	Break           float64 // mm on the view's second axis
	Path            string  // closed outline, mm
	Href            string
	Findings        int
	Lit             bool // drawn as the one that the page is about
}

// Badge is a small mark on a panel, such as how its paint stands: a shape of
// ui/mark, its word read out and shown on touch.
type Badge struct {
	Panel, Word string
	Says        string // the whole sentence
	Mark        mark.Meaning
	X, Y        float64 // mm in the view's plane
	Href        string
}

// Name is what is read out.
func (b Badge) Name() string { return b.Panel + " paint " + b.Word + ": " + b.Says }

// Says names the panel for those who do not see it.
func (p Panel) Says() string {
	text := fmt.Sprintf("%s %s, %s", p.ID, p.Name, p.State)
	switch p.Findings {
	case 0:
		return text
	case 1:
		return text + ", 1 finding"
	}
	return fmt.Sprintf("%s, %d findings", text, p.Findings)
}

// Pin is a place on the vehicle that a numbered flag points at.
type Pin struct {
	Number string
	X, Y   float64 // mm in the view's plane
	State  string
	Says   string // what it is, in words
	Href   string
	Draft  bool // not kept yet: drawn broken
	Done   bool // put right: drawn lighter
	Lit    bool // the one that the page is about
}

// Name is what is read out.
func (p Pin) Name() string {
	text := p.Number + " " + p.Says + ", " + p.State
	if p.Draft {
		text += ", not kept yet"
	}
	return text
}

// count says how many flags a view has.
func count(v View) string {
	switch len(v.Pins) {
	case 0:
		return ""
	case 1:
		return "1 flag"
	}
	return fmt.Sprintf("%d flags", len(v.Pins))
}
