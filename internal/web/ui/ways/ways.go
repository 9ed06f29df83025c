// Package ways leads between the sheets of one place: in named groups where
// there are many, and between kinds of thing within a sheet.
package ways

// Way leads to one sheet.
type Way struct{ Href, Label string }

// At puts ways below an address: the Href of each is what comes behind it.
func At(base string, list []Way) []Way {
	out := make([]Way, len(list))
	for i, w := range list {
		out[i] = Way{Href: base + w.Href, Label: w.Label}
	}
	return out
}

// Group is sheets that belong together, under a name.
type Group struct {
	Name string
	Ways []Way
}
