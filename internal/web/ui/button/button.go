// Package button draws what a person touches to act: at least 56 px high, and
// guarded by the shared script against a second touch while the first is on
// its way.
package button

// Look is the weight of a button.
type Look string

// The looks.
const (
	Main  Look = "main"  // the one act a page is for
	Plain Look = "plain" // any other act
	Keep  Look = "keep"  // keep a change; the largest target of a page
	Back  Look = "back"  // put back; as large as Keep
)

// Params describe a button of a form. Without a Label it is not drawn.
type Params struct {
	Label string
	Look  Look   // Plain when empty
	Name  string // of the value sent with the form; may be empty
	Value string
	To    string // another address the form is sent to; may be empty
	Blunt bool   // sends the form without the browser checking it first
}

func (p Params) class() string {
	if p.Look == "" {
		return "button button-plain"
	}
	return "button button-" + string(p.Look)
}
