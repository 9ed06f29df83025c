// Package flash draws a fault beside the thing it concerns: what is wrong,
// where, and what to do about it.
package flash

// Note is a fault as a person reads it, and as a program does by its JSON.
type Note struct {
	Kind    string `json:"kind"` // as fault.Kind writes it
	What    string `json:"what"` // one sentence
	Where   string `json:"where,omitempty"`
	Hint    string `json:"hint,omitempty"` // what to do
	Request string `json:"request,omitempty"`
}
