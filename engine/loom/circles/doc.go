// Package circles packs circles of any sizes into the smallest round circle
// that it finds: the section of a bundle of wires.
//
// Method. One to three circles have a closed form. Beyond, circles are put one
// by one, the largest first, where they touch two others and lie nearest the middle,
// or strewn at random; then all move at once to lower the sum of squared
// overlaps plus a price on the radius round them, the price falling from stage
// to stage, by limited-memory quasi-Newton steps [LiuNocedal1989]. What overlap
// is left is taken out by spreading the centres, so that what is returned holds
// exactly; of a few starts the smallest is kept. Of up to 24 unlike circles some
// of the best so far then change places, or are thrown elsewhere, and all relax
// anew.
//
// Truth from outside: the smallest circles round up to 20 equal ones are known;
// the tests hold every one of them within 1 %. Unlike circles are held to the
// best known packings of radii 1, 2, … n, n = 5 to 20 [YeHuangLu2013]: 6.4 % above
// at worst, 2.7 % with Options.Hops = 400. On bundles of 6 to 12 wires they lie
// 0.3 % above a slow packer of another kind on average, 2 % at worst; a search a
// hundred times as long finds 1 to 3 % less for 12 to 40 wires. The answer is a packing that
// Check has passed, so the true smallest circle is never larger: a hole that is
// chosen by it passes the bundle.
//
// Beside it stands the rule of thumb D = k·√(Σd²) (Rule). The wires of a real
// bundle are twisted and pressed: what is packed here is their round section.
//
// Keys in brackets stand in docs/references.md.
package circles
