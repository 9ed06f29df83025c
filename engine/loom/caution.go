package loom

import "slices"

// cautions stand with every loom: fire, battery, the road, the law.
func (s *sizer) cautions() []string {
	list := []string{
		"Battery earth off first and on last; no live battery near open fuel; charge where the air moves.",
		"A wire that is hot, soft or smells is wrong whatever this says: isolate the battery first.",
		"Before the first full connection: through a 5 A fuse or a 21 W lamp in series, one circuit after the other.",
		"Starter cable and whatever else is unfused: route it clear of edges and heat, insulate it, fit a master isolator.",
		"Old cloth and asbestos sleeving: do not brush or blow it; mask, damp, bag.",
		"Lamps, indicators and horn have rules of the road: the country's own apply, and its inspection decides.",
		"This advises and certifies nothing: sizes are checked against the cable and fuse maker's sheets, and where the law asks for a licensed electrician, by one.",
	}
	if s.p.PositiveEarth {
		list = append(list, "Positive earth: the body is plus. Whatever is marked with a polarity (alternator, electronic ignition, radio, LED, tachometer) is destroyed the wrong way round.")
	}
	if slices.ContainsFunc(s.p.Consumers, func(c Consumer) bool { return c.Behaviour == LED }) {
		list = append(list, "LED in place of a bulb: a thermal flasher needs a bulb's load, so an electronic one, or 6 Ω of 25 to 50 W across it, which gets hot; it lights one way round only; whether the lamp may have one is the law's to say.")
	}
	for i := range s.p.Batteries {
		if s.p.batteryOhms(s.p.Batteries[i]) > 0 && s.p.nominal() == 24 {
			return append(list, "24 V: two batteries in series; never join a 12 V part across one of them.")
		}
	}
	return list
}
