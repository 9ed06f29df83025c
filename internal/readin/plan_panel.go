package readin

import (
	"math/big"
	"strings"

	"fettle/build"
	"fettle/unit"
)

// taken tells whether a number is in use for a kind of thing.
func (p *planner) taken(what, id string) bool {
	if _, ok := p.lines[what+" "+id]; ok {
		return true
	}
	switch what {
	case "panel":
		return p.names.has(id)
	case "finding":
		return p.work.Finding(build.FindingID(id)) != nil
	case "part":
		return p.work.Part(build.PartID(id)) != nil
	}
	return false
}

// has tells whether a panel of that number was in the build before the list.
func (n *names) has(id string) bool {
	_, ok := n.byID[numberKey(id)]
	return ok
}

func panelSame(x build.Panel) string { return fingerprint("panel", fold(x.Name), x.Side) }

// panel turns a row into add-panel.
func (p *planner) panel(r *rowReader) (build.Change, func()) {
	x := build.Panel{Name: r.need("name"), Gauge: r.length("gauge")}
	x.Side = r.side(&x.Name)
	x.Decision = r.decided("decision")
	if x.Decision == "" {
		x.Decision = build.Keep
	}
	x.State = oneOf(r, "state", build.PanelStates())
	x.Task = r.task()
	x.Areas = r.areas()
	x.ID = build.PanelID(r.number("panel", "number", panelSame(x)))
	return &build.AddPanel{Panel: x}, func() { p.keep(panelSame(x), "panel "+string(x.ID), r.Line) }
}

// side reads the side from its column, else from the last or first word of the
// name, which it then takes off; without either the panel is in the centre.
func (r *rowReader) side(name *string) string {
	if text := r.text("side"); text != "" {
		side := sideOf(strings.Trim(text, " ."))
		if side == "" {
			r.fail("side", invalid("%q is not a side", text).WithHint("write L, R or C; nearside and offside differ by country"))
		}
		return side
	}
	words := strings.Fields(*name)
	for _, i := range []int{len(words) - 1, 0} {
		if len(words) < 2 {
			break
		}
		if side := sideOf(strings.Trim(words[i], ",.()")); side != "" {
			*name = strings.TrimRight(strings.Join(append(words[:i:i], words[i+1:]...), " "), " ,")
			return side
		}
	}
	return "C"
}

// areas reads the columns of paint zones, bare numbers in square metres unless
// the heading says square feet.
func (r *rowReader) areas() []build.ZoneArea {
	var areas []build.ZoneArea
	for _, c := range r.p.m.Columns {
		if c.Of == "" || c.At >= len(r.cells) || r.cells[c.At] == "" {
			continue
		}
		zone, err := r.p.names.zone(c.Of)
		if err != nil {
			r.fail("area", err)
			return nil
		}
		area, err := r.p.n.parseArea(r.cells[c.At], c.Unit)
		if err != nil {
			r.fail("area", err)
			return nil
		}
		if area != 0 {
			areas = append(areas, build.ZoneArea{Zone: zone, Area: area})
		}
	}
	return areas
}

// squareFoot is 304.8 mm squared, in tenths of a thousandth of mm².
const squareFoot = 929_030_400

// parseArea reads a surface: "1.95", "1,95 m²", "21 sq ft".
func (n numeral) parseArea(text, fallback string) (unit.Area, error) {
	if len(text) > longestValue {
		return 0, invalid("the text is too long for an area")
	}
	t := strings.TrimSuffix(strings.TrimSuffix(tidy(text), "²"), "2")
	number, word := cutUnit(t)
	if word == "" {
		number, word = tidy(text), fallback
	}
	value, _, ok := n.parse(number)
	if !ok {
		return 0, invalid("%q is not an area", text).WithHint("write it in square metres, like 1.95")
	}
	per := new(big.Rat).SetInt64(int64(unit.SquareMetre))
	switch strings.Trim(strings.ReplaceAll(word, " ", ""), "2²") {
	case "m", "sqm":
	case "ft", "sqft":
		per = big.NewRat(squareFoot, 10_000)
	default:
		return 0, unknownUnit(word, "m² and sq ft are understood")
	}
	mm2, ok := steps(value.Mul(value, per), 1)
	if !ok {
		return 0, invalid("the area is absurd")
	}
	return unit.Area(mm2), nil
}
