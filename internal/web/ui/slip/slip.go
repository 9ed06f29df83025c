// Package slip draws a knock-on: what a change would do, before it is kept.
// Two columns, before and after, only the lines that change, the largest
// first; "keep" and "put back" are the two largest targets of the page.
package slip

import (
	"cmp"
	"slices"

	"fettle/figure"
	"fettle/internal/web/ui/mark"
)

// Line is one quantity before and after.
type Line struct {
	What   string
	Before string
	After  string
	Change string         // such as "+8 days", may be empty
	Weight float64        // how much it matters; the largest stands first
	Mark   mark.Meaning   // what the after means, may be empty
	Figure *figure.Figure // working of the after, may be nil
	ID     string         // unique on the page, needed with Figure
}

// Slip is the knock-on of one or more changes not kept yet.
type Slip struct {
	Title   string   // what would be done, such as "Record 14 findings"
	Lines   []Line   // in any order; lines that do not change are left out
	Note    string   // one sentence under the lines, such as the sampling error
	Keep    string   // address that keeps the change
	PutBack string   // address that drops it
	Entry   string   // ID of the entry to be kept, see field.NewEntry
	Hidden  []Hidden // what both forms carry
}

// Hidden is a value that travels with the forms of a slip.
type Hidden struct{ Name, Value string }

// changed returns the lines that change, heaviest first.
func (s Slip) changed() []Line {
	var out []Line
	for _, l := range s.Lines {
		if l.Before != l.After {
			out = append(out, l)
		}
	}
	slices.SortStableFunc(out, func(a, b Line) int { return cmp.Compare(b.Weight, a.Weight) })
	return out
}
