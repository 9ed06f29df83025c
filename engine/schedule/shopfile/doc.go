// Package shopfile reads and writes a scheduling problem as a text file that a
// person can type: the form called fettle, which is JSON.
//
// Things go by their IDs, moments are dates with times ("2026-10-06 08:00") on
// the shop's own clock, spans are hours and minutes ("6h30m"), or days ("2d")
// where the wall clock counts, and a calendar is a week ("mon-fri 08:00-16:00;
// sat 08:00-12:00") with the days it is closed and the windows it has besides.
// docs/engine/schedule-file.md lists every name.
//
// Read wants every name to be known and said once; a fault is of kind Invalid,
// names the place in the file ("activities[4] coat 2, takes") and says what to
// do. It knows the form and resolves IDs; the rules of a problem are known to
// schedule.Solve. Write is stable byte for byte, and Read(Write(f)) is f, less
// what has no meaning for a kind or state: the calendar of labour, the start
// of what is open, a published slot without a moment, and the order of
// remedies of different links.
package shopfile
