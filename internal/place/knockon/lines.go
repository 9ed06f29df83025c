package knockon

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/figure"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/slip"
	"fettle/plan"
)

// lines turns a trial into the slip that is drawn.
func lines(s sheet, build string) slip.Slip {
	k := s.Trial.KnockOn
	out := slip.Slip{
		Title: title(s.Acts), Note: sampling(s.Trial), Entry: field.NewEntry(),
		Keep: "/b/" + build + "/slip/keep", PutBack: "/b/" + build + "/slip/back",
	}
	for i, row := range k.Rows {
		line := slip.Line{What: capital(row.Name), Before: row.Before, After: row.After, Change: row.Change, Weight: float64(len(k.Rows) - i)}
		if strings.HasPrefix(row.Name, "odds of") {
			line.Mark = mark.Meaning(k.After.Word)
		}
		if f := workingOf(s.Trial.After, row); f != nil {
			line.Figure, line.ID = f, fmt.Sprintf("row-%d", i)
		}
		out.Lines = append(out.Lines, line)
	}
	return out
}

func title(acts []act) string {
	if len(acts) == 1 {
		return acts[0].Says
	}
	return fmt.Sprintf("Keep %d changes", len(acts))
}

// workingOf finds the working behind the after of a row.
func workingOf(p *plan.Plan, row plan.Row) *figure.Figure {
	f := figure.Figure{}
	switch {
	case row.Group == "date" && strings.HasPrefix(row.Name, "odds of"):
		f = p.Odds.Figure
	case row.Group == "date":
		f = p.Dates.Figure
	case row.Name == "cash":
		f = p.Money.CashFig
	case row.Name == "reaches the cause":
		f = p.Money.NetFig
	case row.Name == "gifts in kind":
		f = p.Money.GivenFig
	case row.Group == "paint":
		f = paintWorking(p, row.Name)
	case row.Group == "parts":
		f = partWorking(p, row.Name)
	default:
		for _, who := range p.People {
			if row.Group == "hours" && who.Name == row.Name {
				f = who.Figure
			}
		}
		for _, l := range p.Money.Lines {
			if row.Group == "money" && l.Name == row.Name {
				f = l.Figure
			}
		}
	}
	if f.With == "" {
		return nil
	}
	f.Text = row.After
	return &f
}

// paintWorking finds the working of a row of paint: of a product's litres, or
// of the tins of a part.
func paintWorking(p *plan.Plan, name string) figure.Figure {
	for _, l := range p.Litres {
		if name == l.Name+", ready to spray" {
			return l
		}
	}
	for _, t := range p.Tins {
		if name == "tins of "+t.Name+" to buy" {
			return t.Figure
		}
	}
	return figure.Figure{}
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// partWorking finds the working of what is taken of a part.
func partWorking(p *plan.Plan, name string) figure.Figure {
	for _, o := range p.Orders {
		for _, t := range o.Takes() {
			if t.Name == name {
				return figure.Figure{Name: name, Formula: "what the work takes of the part, as the facts stand", With: t.Input.Note, Inputs: []figure.Input{{Name: o.Name, Value: strconv.Itoa(o.Count), Source: figure.Decided, Note: "on the list of Stores", Link: "part/" + string(o.Part)}}}
			}
		}
	}
	return figure.Figure{}
}
