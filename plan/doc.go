// Package plan turns the take-offs of all stages into one plan: dates and
// their odds, hours by person, what to order, money and what reaches the
// cause, and the chain of reasons behind the date.
//
// [Make] is a pure function: the same build, rates, moment and options give
// the same plan, bit for bit, on any machine. A knock-on is two plans compared
// ([Compare]); the odds of both are played under the same seed with common
// random numbers, so that their difference is real.
package plan
