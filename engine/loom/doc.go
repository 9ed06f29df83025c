// Package loom works out the electrical net of a vehicle: what every wire
// carries in every position of the switches that matters, which section it
// needs and which rule says so, whether its fuse protects it, and what is wrong.
//
// Method. Terminals that nothing lies between become one node. Volts follow from
// the conductances by Cholesky, full for few nodes and sparse for many, with one
// node held at 0 V in every part that hangs together, which moves no current.
// Filaments follow amps ∝ V^0.55. Constant powers are injected amps, from no load
// downwards; where loads share feeds and earths only, every sweep lowers their
// volts and never past a working point, so volts that reach nothing prove that
// there is none, and sweeps are counted. Relays and alternators are looked at
// again until they agree with the volts they see, and so are LEDs, which conduct
// one way.
//
// Up to Options.Every positions of all switches together are all tried. Beyond,
// switches whose contacts feed the same wires form a group. Each group is tried
// in all its positions, once with the others where they draw most for long and
// once with the others at rest, and what these say loads a wire most is put
// together: sums of groups, not products. That is the most of a wire where feeds
// branch like a tree, returns are not shared and amps do not rise as volts fall;
// elsewhere it is not proved. Positions that are never together are left out.
//
// Each wire is checked for load, heat (free-air rating × ambient × bundle), the
// fuse before it, drop at its own temperature, handbook density and the short
// circuit at its far end: the fuse must open within 5 s and let through no more
// than k²S². The smallest size that passes is taken, and the rule that the next
// smaller one breaks is named. Two rule sets are there, see RuleSets. Every run
// passes Recheck, which has formulas of its own, before it is handed out.
//
// Limits. Direct current at rest, and pulses as heat; no inductance. A filament's
// law holds near its rated volts. Polarity blocks the current of LEDs only. The bundle
// table is an aircraft's and cautious. Fuse windows beyond the makers' points are
// straight lines of logarithms. It advises and certifies nothing: the maker's
// sheet, the law and, where it asks for one, a licensed electrician decide.
//
// Sources: ISO 8820-3, IEC 60228, IEC 60949, IEC 60757, BS-AU7, DIN 72552,
// MIL-W-5088; docs/engine/loom.md says which number is from where.
package loom
