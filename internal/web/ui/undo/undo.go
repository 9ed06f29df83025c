// Package undo draws the bar that says what was just kept and offers to put it
// back, instead of asking beforehand whether a person is sure.
package undo

// Bar names an entry that can be taken back.
type Bar struct {
	Text   string // what was kept, such as "recorded finding F32"
	Entry  string // the entry's ID
	Back   string // page to go to once it is taken back, empty: the one that shows the bar
	Action string // where the form posts it, in the field "undoes"
}
