package paint

// way leads to one sheet of the place.
type way struct{ Path, Label string }

// sheets lists the sheets of the place in the order of their use. A sheet is a
// line here and its routes in Place.
var sheets = []way{
	{"", "Overview"},
	{"/tins", "Tins"},
	{"/may-spray", "May I spray?"},
	{"/clocks", "Clocks"},
	{"/day", "Spray day"},
	{"/records", "Records"},
	{"/redo", "Paint again"},
	{"/limits", "Solvent limits"},
}
