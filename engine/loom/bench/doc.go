// Package bench is what is done with the wires of a loom before any power: the
// order in which they are cut, the reels they are cut from, the two labels each
// bears, and what a meter must read on them.
//
// Method. Nets are found by what the ends of wires join. Within a net each end
// is read from the first, over the way of least resistance; then each net
// against all others joined together, so n readings do for n(n−1)/2 pairs.
//
// Limits. Lengths are millimetres, resistances ohms at 20 °C. A wire without a
// resistance counts for none and is told.
package bench
