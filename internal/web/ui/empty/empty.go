// Package empty draws a place that has nothing in it yet: it says what the
// place is for and offers the first act.
package empty

// Params describe the place.
type Params struct {
	Title string
	Text  string // one or two sentences
	Act   string // the first act; empty for none
	Href  string // where it leads
}
