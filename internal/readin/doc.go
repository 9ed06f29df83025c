// Package readin reads the lists that a shop already keeps, as text with
// separators or as a workbook, and turns their rows into typed changes.
//
// It works in three steps, so that a person can look and choose between them:
//
//	[Open]  bytes -> a [Sheet] of headings and rows, whatever the encoding
//	[Match] headings -> a [Mapping] of fields to columns
//	[Plan]  rows -> changes that apply, and a verdict on every row
//
// Nothing is kept here: the caller records the changes. A row that cannot be
// read is a bad [Row] with its line, field, reason and a hint; it never takes
// the good ones with it unless [Options.AllOrNothing] asks for that.
//
// docs/import.md lists the headings, units and forms that are understood.
package readin
