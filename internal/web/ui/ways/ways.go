// Package ways leads between the sheets of one place: in named groups where
// there are many, and between kinds of thing within a sheet.
package ways

// Way leads to one sheet.
type Way struct{ Href, Label string }

// Group is sheets that belong together, under a name.
type Group struct {
	Name string
	Ways []Way
}
