package metal

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/drawn"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/vehicle"
	"fettle/unit"
)

// findingPage is everything about one finding.
type findingPage struct {
	scene
	Finding *build.Finding
	Panels  []*build.Panel
	Task    *build.Task
	Draft   bool
	View    vehicle.View
	Hours   figure.Figure
	Booked  figure.Figure
	Area    figure.Figure
	Parts   []build.Part
	Photos  []build.Photo
	Choose  chooser
	Wrong   field.Errors
}

func (p place) finding(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	f, err := s.found(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(f)
	}
	return p.showFindingPage(r, s, f, again(f))
}

// again fills the form of a remedy with what was decided.
func again(f *build.Finding) entry {
	e := entry{ID: field.NewEntry(), Width: mm(f.Size.Width), Height: mm(f.Size.Height), Count: fmt.Sprint(f.Size.Places()), Round: f.Size.Round,
		Remedy: string(f.Remedy), How: f.How, Quantity: "1", Hours: map[build.TradeID]string{}}
	for _, id := range f.Panels {
		e.Panels = append(e.Panels, string(id))
	}
	for _, l := range f.Work {
		e.Hours[l.Trade] = unit.FormatDecimal(int64(unit.Money(100*l.Hours.H())), 2, 0)
	}
	return e
}

func (p place) showFindingPage(r *web.Request, s scene, f *build.Finding, e entry) error {
	page := findingPage{scene: s, Finding: f, Task: s.Build.Task(f.Task), Draft: s.draft(f.ID), Wrong: e.Wrong,
		Hours: plannedHours(f), Booked: bookedHours(s.Build, f), Area: areaOf(f), Photos: s.pictures("finding/" + string(f.ID))}
	if e.PartID == "" {
		e.PartID = string(s.Build.NextPart())
	}
	var err error
	if page.Choose, err = p.choose(r, s, e); err != nil {
		return err
	}
	for _, id := range f.Panels {
		if panel := s.Build.Panel(id); panel != nil {
			page.Panels = append(page.Panels, panel)
		}
	}
	for _, part := range s.Build.Parts {
		for _, id := range part.Because {
			if id == f.ID {
				page.Parts = append(page.Parts, part)
			}
		}
	}
	if len(page.Panels) > 0 {
		views := drawn.Views(s.Build, drawn.Options{Base: s.At(), Kept: s.Kept, Finding: f.ID, Panel: page.Panels[0].ID})
		page.View, _ = drawn.View(views, drawn.Shows(s.Build, page.Panels[0]))
		near, _ := on(s.Build, page.Panels[0].ID)
		page.View.Pins = pinsOf(page.View.Pins, near)
	}
	sheet := web.Sheet{Place: "metal", Shown: "finding " + string(f.ID), Scripts: []string{script}}
	if len(e.Wrong) > 0 {
		return r.Invalid(sheet, showFinding(page))
	}
	return p.desk.Page(r, sheet, showFinding(page))
}

func plannedHours(f *build.Finding) figure.Figure {
	out := figure.Figure{Name: "hours of " + string(f.ID), Text: f.Hours().String(), Formula: "the hours of every trade, as decided"}
	var with []string
	for _, l := range f.Work {
		with = append(with, fmt.Sprintf("%s %s", l.Trade, l.Hours))
		out.Inputs = append(out.Inputs, figure.Input{Name: string(l.Trade), Value: l.Hours.String(), Source: figure.Decided, Note: f.How})
	}
	if len(with) == 0 {
		out.Text, with = "0 h", []string{"nothing decided"}
	}
	out.With = strings.Join(with, " + ") + " = " + out.Text
	out.Caution = "Rust goes further than is seen. A load path is for a competent person, to factory seams."
	return out
}

func bookedHours(b *build.Build, f *build.Finding) figure.Figure {
	out := figure.Figure{Name: "booked on " + string(f.ID), Formula: "hours clocked on this finding"}
	var sum unit.Effort
	for _, h := range b.Hours {
		if h.Finding == f.ID {
			sum += h.Worked
			out.Inputs = append(out.Inputs, figure.Input{Name: h.Start.Date().Short() + " " + string(h.Person), Value: h.Worked.String(), Source: figure.Measured, Note: h.Note})
		}
	}
	out.Text = sum.String()
	out.With = fmt.Sprintf("%d entries = %s", len(out.Inputs), sum)
	return out
}

func areaOf(f *build.Finding) figure.Figure {
	cm2 := fmt.Sprintf("%.4g cm²", f.Size.Area().M2()*1e4)
	return figure.Figure{Name: "metal covered", Text: cm2, Formula: "width × height × places; a hole counts as the square around it, a crack as a strip of 20 mm",
		With: f.Size.String() + " = " + cm2, Inputs: []figure.Input{{Name: "size", Value: f.Size.String(), Source: figure.Measured, Note: "found at " + f.Found}}}
}
