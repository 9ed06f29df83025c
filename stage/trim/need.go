package trim

import (
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/unit"
)

// Need is what the pieces of one material take, and what is there of it.
type Need struct {
	Material string         `json:"material"`
	Roll     build.RollID   `json:"roll,omitempty"`
	Pieces   int            `json:"pieces"` // copies
	Net      unit.Area      `json:"net_m2"` // at cut size
	Grades   []GradeArea    `json:"grades"`
	Hides    []build.HideID `json:"hides,omitempty"` // not refused
	Gross    unit.Area      `json:"gross_m2,omitempty"`
	Usable   unit.Area      `json:"usable_m2,omitempty"`
	Used     float64        `json:"used,omitempty"`      // Net ÷ Usable
	Length   unit.Length    `json:"length_mm,omitempty"` // off the roll
	Metres   int            `json:"metres,omitempty"`    // to buy
	Have     int            `json:"have,omitempty"`      // hides there, or metres on the list
	Buy      int            `json:"buy"`                 // hides or metres still to buy
	Figure   figure.Figure  `json:"working"`
}

// GradeArea is the net area of one grade.
type GradeArea struct {
	Grade string    `json:"grade"`
	Area  unit.Area `json:"area_m2"`
}

// Snug is the share of the usable area from which on hides have no margin: a
// mark more, and a piece has no place.
const Snug = 0.95

// Needs returns the need of every material that pieces are cut from, in the
// order in which the pieces name them.
func Needs(b *build.Build) []Need {
	var list []Need
	for _, p := range b.Pieces {
		if !slices.ContainsFunc(list, func(n Need) bool { return n.Material == p.Material }) {
			list = append(list, NeedOf(b, p.Material))
		}
	}
	return list
}

// NeedOf returns the need of one material: by the metre where a roll has its
// name, else in hides.
func NeedOf(b *build.Build, material string) Need {
	n := Need{Material: material}
	var inputs []figure.Input
	for _, p := range b.Pieces {
		if p.Material != material {
			continue
		}
		n.Pieces += p.Quantity
		n.Net += p.Area()
		n.grade(p.Grade, p.Area())
		inputs = append(inputs, figure.Input{Name: string(p.ID) + " " + p.Name, Source: figure.Measured,
			Value: fmt.Sprintf("%d × %.0f × %.0f mm = %s", p.Quantity, p.Width.Mm(), p.Height.Mm(), p.Area()), Link: "piece/" + string(p.ID)})
	}
	if r := RollOf(b, material); r != nil {
		n.byMetre(b, *r, inputs)
		return n
	}
	n.inHides(b, inputs)
	return n
}

func (n *Need) grade(grade string, area unit.Area) {
	i := slices.IndexFunc(n.Grades, func(g GradeArea) bool { return g.Grade == grade })
	if i < 0 {
		n.Grades = append(n.Grades, GradeArea{grade, area})
		slices.SortFunc(n.Grades, func(a, b GradeArea) int { return int(Quality(b.Grade)) - int(Quality(a.Grade)) })
		return
	}
	n.Grades[i].Area += area
}

// inHides reckons by the share of a hide that can be cut.
func (n *Need) inHides(b *build.Build, inputs []figure.Input) {
	var last *build.Hide
	for i := range b.Hides {
		h := &b.Hides[i]
		if h.Material != n.Material {
			continue
		}
		last = h
		if h.Refused {
			inputs = append(inputs, figure.Input{Name: "hide " + string(h.ID), Value: "refused", Source: figure.Decided, Note: h.Why})
			continue
		}
		n.Hides = append(n.Hides, h.ID)
		n.Gross += h.Area
		n.Usable += unit.Area(math.Round(float64(h.Area) * h.Usable))
		inputs = append(inputs, figure.Input{Name: "hide " + string(h.ID) + ", lot " + h.Lot, Value: h.Area.String(), Source: figure.Sheet, Note: "as the tannery measured it"})
	}
	n.Have = len(n.Hides)
	if n.Usable > 0 {
		n.Used = float64(n.Net) / float64(n.Usable)
	}
	n.Figure = figure.Figure{Name: "need of " + n.Material, Text: n.Net.String(), Formula: "sum of the pieces at cut size; hides to have = that ÷ (area of a hide × usable part), rounded up, and one more of the same lot where no margin is left",
		Caution: "Pieces ÷ usable part is a rule for buying. Whether they go on these very hides only a layout on them tells."}
	if last == nil {
		n.Figure.With = fmt.Sprintf("%d pieces, %s; no hide of it is on the list", n.Pieces, n.Net)
		n.Figure.Inputs = inputs
		return
	}
	each := float64(last.Area) * last.Usable
	want := int(math.Ceil(float64(n.Net)/each - 1e-9))
	spare := ""
	if float64(n.Net) > Snug*each*float64(want) {
		spare = fmt.Sprintf("; %d would be %.0f %% used, no margin: 1 more of the same lot", want, 100*float64(n.Net)/each/float64(want))
		want++
	}
	n.Buy = max(want-n.Have, 0)
	n.Figure.With = fmt.Sprintf("%s ÷ (%s × %.2f) = %.2f → %d hides%s", n.Net, last.Area, last.Usable, float64(n.Net)/each, want, spare)
	n.Figure.Inputs = append(inputs, figure.Input{Name: "usable part of a hide", Value: fmt.Sprintf("%.0f %%", 100*last.Usable), Source: figure.TradeDefault, Note: "20 to 45 % is lost to shape and faults, 30 % in car work"})
}

// lengthOf is what the pieces of a roll take, how it is reckoned, and with which
// numbers: by the kept cut plan where all of it can be cut, else by rows.
func lengthOf(b *build.Build, r build.Roll) (long unit.Length, formula, with string, over []build.PieceID) {
	if b.LayoutOf(r.Material) != nil {
		if v := VerdictOf(b, r.Material); v.Whole() {
			return unit.Length(math.Round(v.Length * float64(unit.Millimetre))), "as the kept cut plan lies", fmt.Sprintf("%.3f m", v.Length/1000), nil
		}
	}
	rows := RowsOf(b, r)
	return rows.Length, "rows across the roll, laid end to end", fmt.Sprintf("%s = %.2f m", rows.Words, rows.Length.Mm()/1000), rows.Over
}

// byMetre reckons the length off a roll.
func (n *Need) byMetre(b *build.Build, r build.Roll, inputs []figure.Input) {
	long, formula, with, over := lengthOf(b, r)
	n.Roll, n.Length = r.ID, long
	n.Metres = int(math.Ceil(long.Mm()*(1+rollSpare)/1000 - 1e-9))
	n.Gross = unit.Rect(long, r.Width)
	bought := "nothing is on the list"
	if p := b.Part(r.Part); p != nil {
		n.Have = p.Quantity
		bought = fmt.Sprintf("%d m", p.Quantity)
	}
	n.Buy = max(n.Metres-n.Have, 0)
	if n.Gross > 0 {
		n.Used = float64(n.Net) / float64(n.Gross)
	}
	n.Figure = figure.Figure{Name: "need of " + n.Material, Text: fmt.Sprintf("%.2f m", n.Length.Mm()/1000), Formula: formula + "; bought with a tenth over, by the whole metre",
		With: fmt.Sprintf("%s; × 1.10 = %.2f → %d m of %.2f m wide", with, n.Length.Mm()*(1+rollSpare)/1000, n.Metres, r.Width.Mm()/1000),
		Inputs: append(inputs,
			figure.Input{Name: "roll " + string(r.ID), Value: fmt.Sprintf("%.0f mm wide", r.Width.Mm()), Source: figure.Sheet, Note: napWords(r)},
			figure.Input{Name: "over", Value: "a tenth", Source: figure.TradeDefault, Note: "end faults, squaring the end"},
			figure.Input{Name: "on the list", Value: bought, Source: figure.Measured, Link: linkOf(r.Part)}),
		Caution: "Measure the roll before the first cut: widths are nominal. Nap runs down on panels; one length, so that one lot covers it."}
	for _, id := range over {
		n.Figure.With += fmt.Sprintf("; %s is wider than the roll", id)
	}
}

func napWords(r build.Roll) string {
	text := "no nap: a half turn is allowed"
	if r.Nap {
		text = "nap: every piece lies one way"
	}
	if r.Repeat > 0 {
		text += fmt.Sprintf("; its pattern comes again every %.0f mm", r.Repeat.Mm())
	}
	if r.Across > 0 {
		text += fmt.Sprintf("; and every %.0f mm across", r.Across.Mm())
	}
	return text
}

// linkOf leads to a part, where there is one.
func linkOf(id build.PartID) string {
	if id == "" {
		return ""
	}
	return "part/" + string(id)
}
