// Package web serves the places: it turns a list of places with their routes
// into one handler, knows who asks and what they may do, wraps what a place
// draws into a sheet with its title block, turns faults into pages or JSON,
// tells other tablets what has changed, and guards it all with strict headers.
// It knows no build and no plan: what it shows in the title block it is given
// as plain values. README.md in this folder shows how to add a place.
package web
