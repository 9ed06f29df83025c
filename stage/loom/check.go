package loom

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/fault"
	"fettle/figure"
	"fettle/takeoff"
)

// unsolved says why the loom cannot be worked out.
func unsolved(err error) takeoff.Check {
	text := inWords(err)
	return takeoff.Check{ID: "loom/unsolved", Weight: takeoff.Slipping, Link: "loom", Says: "the loom cannot be worked out: " + text, Do: "put that right; nothing of the loom is checked until then",
		Figure: figure.Figure{Name: "loom", Text: "not worked out", Formula: "every run has two ends, a length and a source", With: text}}
}

// unrouted says why the route cannot be worked out.
func unrouted(err error) takeoff.Check {
	text := inWords(err)
	return takeoff.Check{ID: "loom/unrouted", Weight: takeoff.Tight, Link: "loom/route", Says: "the route cannot be worked out: " + text, Do: "put that right; lengths are those of the list until then",
		Figure: figure.Figure{Name: "route", Text: "not worked out", Formula: "every wire has two places, and stretches between them", With: text}}
}

func inWords(err error) string {
	if f, ok := errors.AsType[*fault.Fault](err); ok && f.Hint != "" {
		return err.Error() + ": " + f.Hint
	}
	return err.Error()
}

// checks are what the facts say is, or will be, wrong with the loom.
func (s *solved) checks(needs []Need) []takeoff.Check {
	b, p, r := s.b, s.p, s.r
	var list []takeoff.Check
	for _, f := range r.Flaws {
		list = append(list, flawed(b, r, f))
	}
	return slices.Concat(list, full(r), unread(b, p), s.heavier(), undrilled(b), uncovered(b, needs), s.offReadings(), weakCrimps(b), homeless(b), s.stale(), s.routeChecks(), s.unled)
}

// full says that a fuse box has no way left for what must be split.
func full(r loom.Result) []takeoff.Check {
	var list []takeoff.Check
	for _, x := range r.Boxes {
		if x.Left < 0 || x.AfterSplit <= x.Ways {
			continue
		}
		list = append(list, takeoff.Check{ID: "loom/box/" + x.Name, Weight: takeoff.Tight, Link: "loom/fuses",
			Says: fmt.Sprintf("%d of %d ways of the %s are taken: splitting what is flagged needs %d", x.Used, x.Ways, x.Name, x.AfterSplit),
			Do:   "a box with more ways, a second one, or two fuses that carry little made one", Figure: x.Working})
	}
	return list
}

// unread names colours that no code reads and fuses without a rating.
func unread(b *build.Build, p loom.Problem) []takeoff.Check {
	var colours, fuses []string
	for _, c := range b.Circuits {
		if c.Colour != "" && Letters(c.Colour) == "" {
			colours = append(colours, c.ID+" "+c.Colour)
		}
		if c.Fuse != "" && c.Fuse != "none" && c.FuseA == 0 {
			fuses = append(fuses, c.ID+" "+c.Fuse)
		}
	}
	var list []takeoff.Check
	if len(colours) > 0 {
		list = append(list, takeoff.Check{ID: "loom/colours", Weight: takeoff.Tight, Link: "loom", Says: "no code of wire colours reads " + some(colours), Do: "write letters of BS-AU7 such as U/R, or of IEC 60757 such as BURD",
			Figure: listed("colours that are not read", "letters of either code, or words", colours)})
	}
	if len(fuses) > 0 {
		list = append(list, takeoff.Check{ID: "loom/ratings", Weight: takeoff.Tight, Link: "loom/fuses", Says: "nobody has said what these fuses are rated at: " + some(fuses), Do: "say it: without, no wire behind them is checked against its fuse",
			Figure: listed("fuses without a rating", "circuits that name a fuse of no amps", fuses)})
	}
	return list
}

// heavier says where what hangs on a circuit draws more than the list says.
func (s *solved) heavier() []takeoff.Check {
	b := s.b
	var list []takeoff.Check
	for _, c := range b.Circuits {
		sum := 0.0
		var terms []string
		for _, x := range b.Loom.Consumers {
			if slices.Contains(x.Circuits, c.ID) {
				amps := s.p.Takes(consumerOf(x))
				sum += amps
				terms = append(terms, fmt.Sprintf("%s %.2g A", x.Name, amps))
			}
		}
		if sum <= c.Load*1.05+0.05 {
			continue
		}
		list = append(list, takeoff.Check{ID: "loom/load/" + c.ID, Weight: takeoff.Slipping, Link: "loom/circuit/" + c.ID,
			Says: fmt.Sprintf("circuit %s, %s: what hangs on it draws %.1f A, the list says %g A", c.ID, c.Name, sum, c.Load), Do: fmt.Sprintf("set its load to %.1f A, or fit what the list has", sum),
			Figure: figure.Figure{Name: "load of " + c.ID, Text: fmt.Sprintf("%.1f A", sum), Formula: "sum of what hangs on it, watts ÷ volts", With: strings.Join(terms, " + "),
				Inputs: []figure.Input{{Name: "by the list", Value: fmt.Sprintf("%g A", c.Load), Source: figure.Decided, Link: "loom/circuit/" + c.ID}}, Caution: "Sections and fuses are worked out from the list: a wire loaded beyond it can burn."}})
	}
	return list
}

// homeless says that circuits were added after the last task of the loom was
// finished: their hours are in no plan.
func homeless(b *build.Build) []takeoff.Check {
	owed := takeoff.Owed(b)
	open := slices.ContainsFunc(b.Tasks, func(t build.Task) bool { return t.Stage == "loom" && t.State != build.Finished })
	if build.Total(owed) == 0 || open {
		return nil
	}
	var with []string
	for _, l := range owed {
		with = append(with, fmt.Sprintf("%s %s", l.Trade, l.Hours))
	}
	return []takeoff.Check{{ID: "loom/hours", Weight: takeoff.Slipping, Link: "loom", Says: fmt.Sprintf("circuits came onto the list after the loom was finished: %s for them are in no task", build.Total(owed)),
		Do:     "enter a snag with these hours for whoever makes and tests them",
		Figure: figure.Figure{Name: "hours of the loom", Text: build.Total(owed).String(), Formula: "hours of finished tasks × circuits since ÷ circuits they were planned for", With: strings.Join(with, " + ")}}}
}

// uncovered says what the loom takes that no part on the list covers. A build
// whose wiring is a list of circuits alone is left in peace.
func uncovered(b *build.Build, needs []Need) []takeoff.Check {
	if len(b.Loom.Supplies)+len(b.Loom.Boxes)+len(b.Loom.Waypoints) == 0 {
		return nil
	}
	var list []takeoff.Check
	for _, kind := range build.LoomSupplyKinds() {
		if b.Loom.Supply(kind) != nil {
			continue
		}
		var with []string
		for _, n := range needs {
			if n.Kind == kind {
				with = append(with, n.Name+" "+n.Working.Text)
			}
		}
		if len(with) > 0 {
			list = append(list, takeoff.Check{ID: "loom/supply/" + kind, Weight: takeoff.Tight, Link: "loom/takes", Says: fmt.Sprintf("%s of the loom, %s: no part on the list covers them", kind, some(with)),
				Do: "put them on the list of Stores, or name the part that covers them", Figure: listed(kind+" of the loom", "what the loom takes", with)})
		}
	}
	return list
}

// some names the first few of a list.
func some(list []string) string {
	const most = 6
	if len(list) > most {
		return fmt.Sprintf("%s and %d more", strings.Join(list[:most], ", "), len(list)-most)
	}
	return strings.Join(list, ", ")
}

func listed(name, formula string, list []string) figure.Figure {
	return figure.Figure{Name: name, Text: fmt.Sprint(len(list)), Formula: formula, With: strings.Join(list, "; ")}
}
