package trim

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/takeoff"
)

// Checks are what the facts say is, or will be, wrong in the trim shop.
func Checks(b *build.Build) []takeoff.Check {
	var list []takeoff.Check
	for _, n := range Needs(b) {
		list = append(list, short(b, n)...)
		list = append(list, layoutChecks(b, n)...)
	}
	for _, m := range MixedLots(b) {
		list = append(list, mixed(b, m))
	}
	for _, h := range b.Hides {
		list = append(list, scale(h)...)
	}
	return append(list, sewnChecks(b)...)
}

// offScale is how far the drawn area of a hide may be from the tannery's
// before its scale is doubted: a line off by 10 mm all round is some 2 %, and
// tanneries measure to about as much.
const offScale = 0.05

// scale says that a hide is not drawn at the size that was bought.
func scale(h build.Hide) []takeoff.Check {
	if h.Refused || !h.Outline.Drawn() {
		return nil
	}
	off := h.Outline.Area().M2()/h.Area.M2() - 1
	if off > -offScale && off < offScale {
		return nil
	}
	return []takeoff.Check{{ID: "scale/" + string(h.ID), Weight: takeoff.Tight, Link: "trim",
		Says: fmt.Sprintf("hide %s is drawn as %s, the tannery measured %s", h.ID, h.Outline.Area(), h.Area),
		Do:   "measure it from neck to tail and check the scale of the drawing before anything is cut by it",
		Figure: figure.Figure{Name: "drawn to measured", Text: fmt.Sprintf("%+.0f %%", 100*off), Formula: "area of the outline ÷ the tannery's − 1",
			With: fmt.Sprintf("%s ÷ %s − 1 = %+.1f %%", h.Outline.Area(), h.Area, 100*off),
			Inputs: []figure.Input{{Name: "as drawn", Value: h.Outline.Area().String(), Source: figure.Measured}, {Name: "tannery", Value: h.Area.String(), Source: figure.Sheet},
				{Name: "doubted from", Value: "5 %", Source: figure.TradeDefault}}}}}
}

// short says that too little of a material is there.
func short(b *build.Build, n Need) []takeoff.Check {
	// Boards and the like are no rolls and come in no hides: nothing is known of them.
	if n.Roll == "" && !known(b, n.Material) || n.Buy == 0 {
		return nil
	}
	c := takeoff.Check{ID: "material/" + n.Material, Weight: takeoff.Slipping, Figure: n.Figure, Link: "trim"}
	switch {
	case n.Roll != "" && n.Have == 0:
		c.Weight = takeoff.Tight
		c.Says = fmt.Sprintf("%d m of %s are needed and none is on the list", n.Metres, n.Material)
		c.Do = "put it on the list of Stores, all from one lot"
	case n.Roll != "":
		c.Says = fmt.Sprintf("%d m of %s are needed and %d m are on the list", n.Metres, n.Material, n.Have)
		c.Do = "order the rest from the same lot, or lay it closer"
	case n.Used > 1:
		c.Says = fmt.Sprintf("%s of %s take %.0f %% of what %s can give", n.Net, n.Material, 100*n.Used, hides(n.Have))
		c.Do = fmt.Sprintf("order %s of lot %s", hides(n.Buy), strings.Join(Lots(b, n.Material), " or "))
	default:
		c.Weight = takeoff.Tight
		c.Says = fmt.Sprintf("%s of %s take %.0f %% of what %s can give: no margin for a mark", n.Net, n.Material, 100*n.Used, hides(n.Have))
		c.Do = fmt.Sprintf("lay them on the hides first, or order %s of lot %s", hides(n.Buy), strings.Join(Lots(b, n.Material), " or "))
	}
	return []takeoff.Check{c}
}

func known(b *build.Build, material string) bool {
	for _, h := range b.Hides {
		if h.Material == material {
			return true
		}
	}
	return false
}

func hides(n int) string {
	if n == 1 {
		return "1 hide"
	}
	return fmt.Sprintf("%d hides", n)
}

// layoutChecks are what is wrong with the kept layout.
func layoutChecks(b *build.Build, n Need) []takeoff.Check {
	if b.LayoutOf(n.Material) == nil {
		return nil
	}
	v := VerdictOf(b, n.Material)
	if len(v.Faults) == 0 {
		return nil
	}
	c := takeoff.Check{ID: "cut-plan/" + n.Material, Weight: takeoff.Slipping, Link: "trim"}
	var says, names []string
	for _, f := range v.Faults {
		says = append(says, fmt.Sprintf("%s on %s: %s", f.Name, f.On, f.Says))
		names = append(names, f.Name)
	}
	c.Says = fmt.Sprintf("%d of the pieces laid on %s cannot be cut where they lie: %s", len(v.Faults), n.Material, some(names))
	c.Do = "lay them anew; cut nothing from it before"
	c.Figure = figure.Figure{Name: "faults of the cut plan", Text: fmt.Sprint(len(v.Faults)), Formula: "every copy against what it lies on, with its marks, zones, keep-outs or pattern, and all others",
		With: strings.Join(says, "; "), Inputs: HabitsOf(b, n.Material)}
	return []takeoff.Check{c}
}

// some names the first few of a list.
func some(names []string) string {
	const most = 6
	if len(names) > most {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	return strings.Join(names, ", ")
}

// VerdictOf judges the kept layout of a material on the hides, or the roll, as
// they stand.
func VerdictOf(b *build.Build, material string) Verdict {
	l := b.LayoutOf(material)
	if l == nil {
		return verdictOf(b, material, nil, false)
	}
	return verdictOf(b, material, l.Placed, l.Mixed)
}

func verdictOf(b *build.Build, material string, list []build.Placed, mixed bool) Verdict {
	s, err := SetOf(b, Asked{Material: material, Mixed: mixed})
	if err != nil {
		s = Set{Material: material, Cuts: Cuts(b, material)}
	}
	return s.Judge(list)
}

func mixed(b *build.Build, m Mixed) takeoff.Check {
	c := takeoff.Check{ID: "lot/" + m.Face, Weight: takeoff.Slipping, Link: "trim",
		Says: fmt.Sprintf("the %s are cut from %d dye lots", m.Face, len(m.Lots)),
		Do:   "lay them anew, so that what is seen together is of one lot: two lots never match",
		Figure: figure.Figure{Name: "dye lots", Text: fmt.Sprint(len(m.Lots)), Formula: "lots of the hides that pieces of one face lie on", With: m.Says(),
			Caution: "Compare the tags and a cutting of each in daylight before the first cut."}}
	if l := b.LayoutOf(m.Material); l != nil && l.Mixed {
		c.Weight, c.Do = takeoff.Tight, "it was said that they may differ: hold a cutting of each lot against the others in daylight before the first cut"
	}
	return c
}
