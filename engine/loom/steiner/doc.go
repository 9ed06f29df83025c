// Package steiner finds the cheapest tree in a weighted graph that joins given
// vertices, the terminals, and proves how far from the cheapest its answer can be.
//
// Method. With few terminals (ten, unless said) the table of Dreyfus and Wagner
// over subsets of terminals gives the cheapest tree [DreyfusWagner1971]. Beyond,
// a proved bound comes from the cuts of a rooted, bidirected formulation, raised one by one as
// far as the arcs they cross allow [Wong1984], from several roots; while the gap
// is above 2 %, cuts that the best tree crosses once are kept and the rest raised
// anew, led by that tree [PoggiUchoaWerneck2001]. Trees are
// grown by joining the nearest terminal [TakahashiMatsuyama1980] over the true
// costs, over what the cuts have left of them, and over costs that are shaken a
// little; each is improved by taking single vertices in and out of its spanning
// tree [Voss1992] until nothing helps. The best is returned.
//
// What is proved. Result.Bound holds by Result.Proof: a root and weighted sets
// of vertices, each with a terminal and without the root. Every tree crosses
// every set, and no arc pays more than its edge costs, so no tree costs less
// than the weights together, and where all costs are multiples of one whole
// number, none costs less than the next multiple. Check adds this up from the raw input and shares
// nothing with the search.
//
// Limits. Costs are finite and not negative. Work grows with edges times
// vertices for each tree that is improved; graphs of a few thousand edges take
// tens of milliseconds. The table takes 3^(terminals−1) times vertices.
// Deterministic for the same input and options.
//
// Keys in brackets stand in docs/references.md.
package steiner
