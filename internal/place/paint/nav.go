package paint

import "fettle/internal/web/ui/ways"

// sheets lists the sheets of the place in the order of their use. A sheet is a
// line here and its routes in Place.
var sheets = []ways.Way{
	{Href: "", Label: "Overview"},
	{Href: "/tins", Label: "Tins"},
	{Href: "/may-spray", Label: "May I spray?"},
	{Href: "/clocks", Label: "Clocks"},
	{Href: "/day", Label: "Spray day"},
	{Href: "/records", Label: "Records"},
	{Href: "/redo", Label: "Paint again"},
	{Href: "/limits", Label: "Solvent limits"},
}
