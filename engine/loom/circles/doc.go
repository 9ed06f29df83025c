// Package circles packs circles of any sizes into the smallest round circle
// that it finds: the section of a bundle of wires.
//
// Method. One to three circles have a closed form. Beyond, circles are put one
// by one, the largest first, where they touch two others and lie nearest the middle,
// or strewn at random; then all move at once to lower the sum of squared
// overlaps plus a price on the radius round them, the price falling from stage
// to stage, by limited-memory quasi-Newton steps [LiuNocedal1989]. What overlap
// is left is taken out by spreading the centres, so that what is returned holds
// exactly; of a few starts the smallest is kept.
//
// Truth from outside: the smallest circles round up to 20 equal ones are known;
// the tests hold every one of them within 1 %. For circles of unlike sizes no
// table is known: the answer is a packing that Check has passed, so the true
// smallest circle is no larger.
//
// Beside it stands the rule of thumb D = k·√(Σd²) (Rule). The wires of a real
// bundle are twisted and pressed: what is packed here is their round section.
//
// Keys in brackets stand in docs/references.md.
package circles
