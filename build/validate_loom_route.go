package build

import "fmt"

// checkRoute holds waypoints, stretches and holes to the rules.
func (b *Build) checkRoute() error {
	l := &b.Loom
	for _, w := range l.Waypoints {
		for i, x := range w.At {
			if err := inRange(x, -mostLength, mostLength, "place", fmt.Sprintf("waypoint %s, at_mm, %c", w.ID, 'x'+rune(i))); err != nil {
				return err
			}
		}
		if err := oneOf(w.What, append(WaypointKinds(), ""), fmt.Sprintf("waypoint %s, what", w.ID)); err != nil {
			return err
		}
	}
	for _, s := range l.Stretches {
		where := "stretch " + s.ID
		for i, id := range []WaypointID{s.From, s.To} {
			if l.Waypoint(id) == nil {
				return at(missing("waypoint", id), where+[]string{", from", ", to"}[i])
			}
		}
		if s.From == s.To {
			return rule(ruleWhole, "both its ends are %s", s.From).At(where)
		}
		if err := first(inRange(s.Length, 0, mostLength, "length", where), b.airThere(s.Air, where), oneOf(s.Sleeve, append(SleeveKinds(), ""), where+", sleeve")); err != nil {
			return err
		}
		if s.Length > 0 && s.Length < l.Long(Stretch{From: s.From, To: s.To}) {
			return rule(ruleRange, "it is shorter than the straight line, %.0f mm", l.Long(Stretch{From: s.From, To: s.To}).Mm()).At(where + ", length_mm")
		}
		if l.Long(s) == 0 {
			return rule(ruleRange, "its ends lie on one spot").At(where)
		}
	}
	for _, h := range l.Holes {
		where := "hole " + h.ID
		if l.Waypoint(h.At) == nil {
			return at(missing("waypoint", h.At), where+", at")
		}
		if b.Panel(h.Panel) == nil {
			return at(missing("panel", h.Panel), where+", panel")
		}
		if err := first(inRange(h.Diameter, 1, mostBundle, "diameter", where), inRange(h.Bore, 0, h.Diameter, "bore", where), inRange(h.Clear(), 1, mostBundle, "bore", where), b.checkBy(h.By, where)); err != nil {
			return err
		}
	}
	return nil
}

// checkLoomDone holds readings, crimp tests and labels to the rules.
func (b *Build) checkLoomDone() error {
	l := &b.Loom
	for _, m := range l.Metered {
		where := "reading " + m.ID
		if b.Circuit(m.Circuit) == nil && find(l.Wires, m.Circuit, (*Wire).key) == nil {
			return at(missing("circuit or wire", m.Circuit), where+", circuit")
		}
		if err := first(oneOf(m.Kind, MeterKinds(), where+", kind"), within(m.Value, 0, mostReading, "value", where), b.checkBy(m.By, where)); err != nil {
			return err
		}
	}
	for _, c := range l.Crimps {
		where := "crimp test " + c.ID
		if err := first(needText(c.Terminal, where+", terminal"), needText(c.Section, where+", section"), within(c.Newtons, 0, 100_000, "newtons", where), b.checkBy(c.By, where)); err != nil {
			return err
		}
	}
	for _, p := range l.Labels {
		where := "labels of " + p.Circuit
		if b.Circuit(p.Circuit) == nil && find(l.Wires, p.Circuit, (*Wire).key) == nil {
			return at(missing("circuit or wire", p.Circuit), where)
		}
		if len(p.Text) == 0 {
			return rule(ruleText, "it says nothing").At(where)
		}
	}
	return nil
}
