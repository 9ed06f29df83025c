// Package nestfile reads and writes layout problems: the form "fettle nest",
// which is JSON that a person can type (docs/engine/nest-file.md), and, to
// read only, the forms of the public test sets: strips (items with
// strip_height), hides (items with bins or objects), and bins (item_types
// with bin_types). Read tells them apart by their names.
//
// Our own form is strict: a name it does not know is refused. Of the other
// forms names without meaning for a layout are passed over; what has a meaning
// that a nest.Problem cannot hold is refused. A fault is of kind Invalid, or
// TooLarge, and names the place in the file ("pieces[3] sleeve, outline,
// point 4"). Places in lists count from 0, points from 1. Read(Write(f)) is f.
//
// WriteSVG draws a layout, to be looked at.
package nestfile
