package loom

import (
	"fmt"
	"slices"
	"strings"
)

// find lists what is wrong with the loom.
func (s *sizer) find(r *Result) []Flaw {
	var list []Flaw
	list = append(list, s.labels()...)
	list = append(list, s.overloads(r)...)
	list = append(list, s.thin(r)...)
	list = append(list, s.unfused()...)
	for _, f := range s.p.Fuses {
		if f.Empty {
			list = append(list, Flaw{EmptyHolder, "fuse " + f.Name, "nothing stands in the holder: all behind it is dead", fmt.Sprintf("fit %g A once a meter has shown that nothing behind it is short", f.Amps)})
		}
	}
	if len(s.n.wires) == 0 {
		return list
	}
	joined := s.joined()
	if !slices.ContainsFunc(joined, func(f Flaw) bool { return f.Kind == ShortedNet }) {
		list = append(list, s.unfed()...) // else what is joined to earth seems unfed
	}
	list = append(list, s.openEarths()...)
	list = append(list, s.thinEarths()...)
	list = append(list, s.relays()...)
	return append(append(list, joined...), s.failed()...)
}

// labels finds texts that are printed on two runs.
func (s *sizer) labels() []Flaw {
	first := map[string]string{}
	var list []Flaw
	for i := range s.asked {
		run := s.asked[i].run
		text := run.Label
		if text == "" {
			text = run.ID
		}
		if id, ok := first[text]; ok {
			list = append(list, Flaw{SameLabel, run.ID + " and " + id, fmt.Sprintf("both are labelled %q: whoever traces one finds the other", text), "give one of them a label of its own before labels are printed"})
			continue
		}
		first[text] = run.ID
	}
	return list
}

// overloads finds fuses that carry too much for long or open on starting, and
// boxes with more fuses than ways.
func (s *sizer) overloads(r *Result) []Flaw {
	var list []Flaw
	for i, f := range r.Fuses {
		if f.Flag {
			list = append(list, Flaw{
				FuseLoaded, "fuse " + f.Name, fmt.Sprintf("%.1f A for long × %.4g = %.1f A > %g A: it ages and opens on the road", f.LongA, 1/s.rules.FuseLoad, f.LongA/s.rules.FuseLoad, f.Amps),
				s.relieve(i, f, r.Boxes),
			})
		}
		if f.Inrush == "opens" {
			list = append(list, Flaw{FuseOpens, "fuse " + f.Name, "switching on takes more than it bears: it opens each time", "a larger fuse with the wire for it, a slow one, or switch the loads apart"})
		}
	}
	for _, b := range r.Boxes {
		if b.Left < 0 {
			list = append(list, Flaw{BoxFull, "box " + b.Name, fmt.Sprintf("%d fuses, room for %d", b.Used, b.Ways), fmt.Sprintf("a box of %d ways, or a second one", b.Used)})
		}
	}
	return list
}

// relieve says what to do about a fuse that carries too much.
func (s *sizer) relieve(i int, f FuseLoad, boxes []BoxUse) string {
	curve := s.curves[i]
	larger := "a larger fuse"
	for _, c := range curve.Colours {
		if !over(f.NeedA, c.Amps) {
			larger = fmt.Sprintf("a %g A fuse", c.Amps)
			break
		}
	}
	if len(f.Feeds) < 2 {
		return larger + ", with the section for it"
	}
	text := "split it"
	for _, b := range boxes {
		if b.Name == s.p.Fuses[i].Box {
			text += fmt.Sprintf(", which needs %d ways of a %d-way box", b.Used+1, b.Ways)
		}
	}
	return text + "; or " + larger + ", with the sections for it"
}

// thin finds runs that pass with no size, and fitted ones that are too thin or
// have too large a fuse before them.
func (s *sizer) thin(r *Result) []Flaw {
	var list []Flaw
	for i, one := range r.Runs {
		a := &s.asked[i]
		if len(one.Fails) == 0 {
			continue
		}
		if slices.Contains(one.Fails, ByFuse) || slices.Contains(one.Fails, ByFault) {
			does := fmt.Sprintf("%s may bring %g A for half an hour without opening, and %s mm² bears %.1f A here: the wire burns before the fuse opens", one.Fuse, 1.35*one.FuseA, one.Section, one.UsableA)
			if !slices.Contains(one.Fails, ByFuse) {
				k := s.check(a, a.c)
				if does = s.faultText(a, k); k.faultHeat > k.bears {
					does += ": the insulation is hurt before the fuse opens"
				}
			}
			list = append(list, Flaw{BigFuse, "wire " + one.ID, does, s.heal(a, one)})
		}
		if slices.ContainsFunc(one.Fails, func(f Rule) bool { return f == ByLoad || f == ByDrop || f == ByDensity || f == ByAlone }) && !s.sharedReturn(a) {
			list = append(list, Flaw{Undersized, "wire " + one.ID, fmt.Sprintf("%s mm² with %.3g A: usable %.1f A, drop %.2f V of %.2f V (%s)", one.Section, one.Amps, one.UsableA, one.DropV, one.DropMaxV, words(one.Fails)), s.heal(a, one)})
		}
	}
	return list
}

// sharedReturn reports whether a run is the earth of several consumers: told as such.
func (s *sizer) sharedReturn(a *asked) bool {
	return a.wire >= 0 && a.side == returnSide && s.w != nil && len(s.w.feeds[a.wire]) > 1
}

// heal says which section would do, or which fuse.
func (s *sizer) heal(a *asked, one Sized) string {
	b := *a
	b.fitted = false
	s.choose(&b, 0)
	text := "no size of " + s.cable.Name + " does: shorten it, feed it through a relay, or split the load"
	if b.rule != ByNone {
		text = b.c.Name + " mm² does"
	} else if slices.Contains(one.Fails, ByFuse) || slices.Contains(one.Fails, ByFault) {
		text = "no size of " + s.cable.Name + " does: a smaller or a faster fuse, or a stouter feed before it"
	}
	if a.guard >= 0 {
		curve := s.curves[a.guard]
		largest := 0.0
		for _, c := range curve.Colours {
			if !over(c.Amps, one.UsableA) {
				largest = c.Amps
			}
		}
		if largest > 0 && largest < one.FuseA {
			text += fmt.Sprintf("; as it is, a fuse of %g A at most", largest)
		}
	}
	return text
}

func words(rules []Rule) string {
	list := make([]string, len(rules))
	for i, r := range rules {
		list[i] = string(r)
	}
	return strings.Join(list, ", ")
}

// unfused finds feeds with no fuse before them that nobody has said why.
func (s *sizer) unfused() []Flaw {
	var list []Flaw
	for i := range s.asked {
		a := &s.asked[i]
		if a.guard >= 0 || a.run.Unfused != "" || a.side != feedSide {
			continue
		}
		list = append(list, Flaw{NoFuse, "wire " + a.run.ID, "no fuse stands between the battery and it: a short circuit burns it", "a fuse as near the battery as can be; or say why there is none, as of a starter cable"})
	}
	return list
}

// failed tells states without a working point.
func (s *sizer) failed() []Flaw {
	seen := map[string]bool{}
	var list []Flaw
	for i := range s.seen {
		one := &s.seen[i]
		if one.holds || seen[string(one.flaw)+one.place] {
			continue
		}
		seen[string(one.flaw)+one.place] = true
		remedy := "shorter or thicker feed, or less load on it"
		if one.flaw == Chatter {
			remedy = "feed the coil from before the contact"
		}
		list = append(list, Flaw{one.flaw, place(one.place, s.n.name(one.setting)), one.says, remedy})
	}
	return list
}

func place(what, state string) string {
	if what == "" {
		return "in state: " + state
	}
	return what + ", in state: " + state
}
