// Package project schedules projects: activities that wait for each other and
// share renewable resources, to be over as early as can be (the
// resource-constrained project scheduling problem). It knows nothing of
// calendars, people or lags; time is whole slots from zero.
//
// Solve spends a budget of generated schedules and returns the shortest
// schedule found, a bound below which there is none, and whether the two meet.
// Check is independent of the search: nothing is returned that it refuses.
//
// Method. A schedule is generated from a list, serially or in parallel
// [Kolisch1996], from either end of the project. The first lists follow the
// latest-finish rule and then are drawn around it with a regret-based bias
// [KolischHartmann2006], each justified once [Valls2005]. From there two
// populations breed, one of schedules pushed to the beginning and one of
// schedules pushed to the end, and the children of one join the other
// [DebelsVanhoucke2005]: a child is crossed and justified for the price of one
// schedule. Children inherit a well-used stretch of the father as a block
// [Valls2008] or a two-point crossover [Hartmann1998], and from the mother the
// way of generation as a gene [Hartmann2002]. Among schedules of one length
// the emptier end is the better, and of schedules whose ends are equally empty
// a population keeps the latest only. A list that was generated before is not
// generated again; a population that takes no more children is drawn anew
// around its best. Its size follows the budget and the size of the project.
//
// Bounds. The longest path; for each resource the work between two moments;
// and lengths refuted by time-table propagation and by the work that must fall
// between two moments [KleinScholl1999], within a number of steps that follows
// the budget.
//
// Counting. One schedule is one start for each activity, given by a forward or
// a backward pass [KolischHartmann2006]: justification counts two a round. What
// is counted is starts. A child whose list begins as its mother's takes over
// the starts that a sibling gave to those activities, and a pass is given up
// once its makespan must be longer than that of every plan it could replace;
// both count the starts they gave. The clock is never read; the same problem,
// seed, budget and number of workers give the same schedule.
//
// Speed. Free units of a slot are lanes of one word with a guard bit each, so
// one subtraction tests all resources: four of up to 32,767 units, or two of up
// to 2,147,483,647; more take more words. Generation allocates nothing.
//
// Limits. Capacities do not change over time; durations add up to at most
// 2^24 slots (in units of their common divisor when memory matters). The proof
// is weak on tightly loaded projects, where most answers are "best found".
//
// Keys in brackets stand in docs/references.md; docs/engine/schedule-search.md
// has the figures on the public test sets and what was tried.
package project
