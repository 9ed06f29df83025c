// Package sparse factors large symmetric positive definite matrices of which
// most entries are zero, as surfaces give them: A = L Lᵀ by Cholesky, with an
// order of elimination that keeps L sparse, the symbolic part used again when
// only values change.
//
// Method. Rows that meet the same others are gathered, so that the coordinates
// of a vertex are ordered as one. The order is by minimum degree on the quotient
// graph, with elements absorbed, twins merged and degrees bounded
// [AmestoyDavisDuff1996]. From the elimination tree [Liu1990] in postorder come
// the counts of the columns without forming them [GilbertNgPeyton1994]; columns
// of equal structure become blocks, and blocks are merged into their parents
// where that stores few zeros [AshcraftGrimes1989]. The numbers are worked out
// block by block in dense panels, children passing what they leave on to their
// parents [DuffReid1983]; four columns and eight rows go through the registers
// at once. [Davis2006] has all of it in one book.
//
// Refactor and Solve ask for no memory once they have run. The same matrix gives
// the same bits on any machine: sums keep their order and nothing is fused.
//
// Limits. No pivoting: a pivot that is not well above rounding is a fault, with
// its row. The order knows the pattern only; a matrix with a few full rows puts
// them last. One goroutine. At most 2³¹ places of L, 16 GB. Refine does one step
// of improvement in the same precision, which mends what an ill-conditioned
// system lost, not what it cannot know.
//
// Keys in brackets stand in docs/references.md.
package sparse
