// Package pdf writes outlines at true size, one to one, as pages to print and
// cut by: on one page as large as the drawing, or on tiles of any paper that
// are stuck together.
//
// Tiles overlap. Neighbours carry the same crosses at the same places of the
// drawing, so two of them laid cross on cross lie right. Every page says its
// row and column, shows where it lies in the whole, and carries a bar of 100 mm
// and the words to print at 100 %. Tiles on which nothing is drawn are left
// out; the count says so.
//
// Lengths are millimetres, y up. A page is written to a hundredth of a point,
// 0.0035 mm. The same plan gives the same bytes: no time, no random name
// stands in the file. Letters are those of code page 1252; others become dots.
//
// A print is true only as far as the printer is: hold a ruler against the bar
// of every page before cutting. The file asks viewers not to scale; not all
// obey.
package pdf
