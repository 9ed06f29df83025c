// Package schedule turns people, places, waits and calendars into dates, and
// ranges into odds.
//
// A Problem is activities with their work, the people who may do them, links
// with lags, and calendars. Solve plans it, Check recomputes that a plan can be
// worked, Chain says why the last date is what it is, and Odds plays the plan
// some thousand times with drawn durations.
//
// Method. The plain plan is a parallel generation [Kolisch1996] in the order of
// the list: whenever something changes, whoever is free and at work takes the
// first thing that can be begun. Asked for more, Solve spends a budget of
// generated schedules on serial and parallel generation, forward-backward
// improvement on mirrored calendars [Valls2005] and a population of lists, of
// which windows are laid anew; a small problem is first searched in full;
// the budget is counted as in [KolischHartmann2006], never in seconds. Odds
// plays the same parallel generation as a resource-based policy: no decision
// uses a duration that is not over yet [BallestinLeus2009]. Every draw is a
// hash of seed, run and the ID of what is drawn, so two problems meet the same
// luck and their odds can be compared; the answer does not depend on the
// number of workers. Factors on work are lognormal, learned from records and, on
// this vehicle, from what is finished; risks call for activities of their own.
// Indices says which tasks move the finish and what is won if they go well.
//
// Calendars. Labour counts in its person's own hours and may span nights and
// days off. A lag counts on the calendar it names; -1 is the wall clock, on
// which a cure runs. A lag of one minute on a calendar of evening minutes makes
// what follows begin the morning after.
//
// Limits. Labour once begun is finished before its person takes something else.
// Maximum lags are respected where beginning earlier work later does it,
// otherwise reported as overruns; in odds runs a missed one calls for its remedy
// or, without one, costs nothing. A pinned activity keeps its people and places
// free from the moment its links are settled, not before. A session that takes longer than planned in an odds run goes on past
// the closing hour. The list is never changed during a run, while a real shop
// plans anew: late tails are on the gloomy side. What nobody thought of is not
// in the odds. Moments are minutes within 2^28 of the origin.
//
// Keys in brackets stand in docs/references.md; docs/engine/schedule.md has a
// walk through the parts and the measured figures.
package schedule
