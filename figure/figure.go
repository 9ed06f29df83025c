// Package figure holds a number together with its unit and its working: the
// formula in words, the formula with the numbers in it, where each number came
// from, and the caution that belongs to it. A number shown without its working
// is a defect, so take-off and plan hand out figures rather than numbers.
package figure

// Source says where an input came from, weakest last.
type Source string

// The sources.
const (
	Measured     Source = "measured"      // somebody measured or counted it on this build
	Sheet        Source = "maker's sheet" // a data sheet or a supplier's quote
	OwnPast      Source = "own past"      // the shop's finished work; Note gives n
	Decided      Source = "decided"       // a person chose it
	Worked       Source = "worked out"    // another figure
	TradeDefault Source = "trade default" // a stated habit of the trade, always overridable
)

// Input is one number of a formula and where it came from.
type Input struct {
	Name   string `json:"name"`
	Value  string `json:"value"` // with its unit
	Source Source `json:"source"`
	Note   string `json:"note,omitempty"` // who, when, which page, n records
	Link   string `json:"link,omitempty"` // the thing it opens, such as "finding/F43"
}

// Figure is a number that can show its working.
type Figure struct {
	Name    string  `json:"name"`
	Text    string  `json:"text"`              // the number as shown, with its unit
	Formula string  `json:"formula"`           // in words
	With    string  `json:"with"`              // the formula with the numbers in it
	Inputs  []Input `json:"inputs,omitempty"`  // where each number came from
	Caution string  `json:"caution,omitempty"` // what can hurt, and whose sheet rules
}
