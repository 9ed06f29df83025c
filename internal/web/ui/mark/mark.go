// Package mark draws states as a word with a shape, never by colour alone:
// the four meanings a date or a sum can have, and the states of a panel.
package mark

// Meaning is one of the four things that colour means.
type Meaning string

// The four meanings, best first.
const (
	Safe     Meaning = "safe"     // there is room
	Tight    Meaning = "tight"    // it holds, with nothing to spare
	Slipping Meaning = "slipping" // it no longer holds unless something changes
	Lost     Meaning = "lost"     // it cannot hold any more
)

// Path is the outline of a meaning's shape in a box of 16 by 16, for drawings.
func (m Meaning) Path() string { return paths[m] }

// paths draw each meaning's shape in a box of 16 by 16: a full disc, two
// uprights with no room between, a slope, a struck-out square.
var paths = map[Meaning]string{
	Safe:     "M8 1.5a6.5 6.5 0 1 1 0 13a6.5 6.5 0 1 1 0-13z",
	Tight:    "M2 2h4.6v12h-4.6zM9.4 2h4.6v12h-4.6z",
	Slipping: "M1.5 2.5v12h13z",
	Lost:     "M2 2h12v12h-12zM2 2l12 12M14 2l-12 12",
}
