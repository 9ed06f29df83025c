// Package lags plans projects whose activities are tied by least and most
// times from start to start: a coat that must go on at least four and at most
// six hours after the one before. Finding any schedule at all is as hard as
// finding a good one, so Solve searches in a way that proves as it goes.
//
// A Problem is durations, demands on resources, capacities and lags. Solve
// returns a schedule with how far it is known to be the best, or that there is
// none and how that is known. Check recomputes a schedule from the raw problem.
// Read takes the .sch files of the public test sets [Schwindt1998].
//
// Method. First the longest paths through the lags: a way round that adds up to
// more than nothing is named, and pairs that cannot overlap are ordered where
// lags bar one order, until nothing changes [BartuschMohringRadermacher1988].
// Then search by learning from clashes [Schutt2013]: a start is its earliest
// and latest moment, each pair still open a choice of order. Bounds are moved
// by lags and chosen orders, by the load that must be there in each slot, and
// by edge finding [CarlierPinson1989] on cliques of work that cannot overlap.
// Each move can tell later which bounds it rests on, in the weakest form that
// will do; from a clash the reasons are followed back to the one bound of the
// last decision that explains it [Zhang2001], and what must not come together
// again is kept as a rule. Orders are decided by how much they took part in
// clashes lately [Moskewicz2001], first as they are in the best schedule; runs
// are cut short and begun anew [Luby1993] with the rules kept. Every other run
// aims straight at the lower bound: when it fails, the bound has risen by a
// proof. Every fourth run keeps the order of all but a few activities of the
// best schedule and looks around it [Shaw1998].
//
// The budget is steps, a decision or a clash each; the same problem, options
// and seed give the same answer.
//
// Limits. One mode an activity, renewable resources of fixed capacity, whole
// slots without calendars, one worker. Time and memory go with the pairs that
// cannot overlap, the square of the activities at worst: made for up to some
// 100 activities, and with pairs that rarely exclude each other the bound stays
// weak. "No schedule" by exhausted search names no smallest set of lags.
//
// Keys in brackets stand in docs/references.md; docs/engine/schedule-lags.md
// has the measured figures.
package lags
