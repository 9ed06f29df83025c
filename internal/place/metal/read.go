package metal

import (
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/rates"
	"fettle/unit"
)

// The bounds of what can be typed.
const (
	mostMM    = 20_000_000 // µm
	mostPrice = 10_000_000 // hundredths
)

// finding reads the fields that say what was found and where. Troubles are
// noted in the form, beside their fields.
func (e entry) finding(b *build.Build, f *web.Form) build.Finding {
	out := build.Finding{ID: b.NextFinding(), X: place1(f, "x"), Z: place1(f, "z"), What: e.what(f), Size: e.size(f),
		Found: f.Choice("found", founds()...)}
	for _, id := range e.Panels {
		if b.Panel(build.PanelID(id)) == nil {
			f.Fail("panel", "is not on this vehicle: "+id)
		}
		out.Panels = append(out.Panels, build.PanelID(id))
	}
	if len(e.Panels) == 0 {
		f.Fail("panel", "is not chosen: touch one on the drawing or pick it here")
	}
	if p := e.panel(b); p != nil {
		out.Task = p.Task
	}
	return out
}

// place1 reads one co-ordinate in mm.
func place1(f *web.Form, name string) unit.Length {
	return unit.Length(f.Decimal(name, 3, -mostMM, mostMM))
}

func (e entry) what(f *web.Form) string {
	if strings.TrimSpace(e.Words) != "" {
		return f.Text("words", 1, 120)
	}
	if !slices.Contains(kinds(), e.Kind) {
		f.Fail("kind", "is not chosen: touch one, or say it in your own words")
	}
	return e.Kind
}

func (e entry) size(f *web.Form) build.Size {
	s := build.Size{Width: unit.Length(f.Decimal("width", 3, 1000, mostMM)), Round: e.Round}
	if strings.TrimSpace(e.Height) != "" {
		s.Height = unit.Length(f.Decimal("height", 3, 0, mostMM))
	}
	if n := strings.TrimSpace(e.Count); n != "" && n != "1" {
		s.Count = int(f.Int("count", 1, 1000))
	}
	if s.Round && s.Height > s.Width {
		f.Fail("height", "is the smallest hole, so it cannot be wider than the widest")
	}
	return s
}

// remedy reads what is to be done: the remedy, and hours by trade. Where no
// hours are typed, the guess is taken.
func (e entry) remedy(b *build.Build, f *web.Form, r rates.Rates, task build.TaskID, s build.Size) (build.PanelState, []build.Leg) {
	remedy := build.PanelState(f.Choice("remedy", "", "repair", "replace", "make"))
	if remedy == "" {
		return "", nil
	}
	var legs []build.Leg
	typed := false
	for _, t := range b.Trades {
		if e.Hours[t.ID] == "" {
			continue
		}
		typed = true
		minutes := unit.Hours(float64(f.Decimal("hours-"+string(t.ID), 2, 0, 100_000)) / 100)
		if minutes > 0 {
			legs = append(legs, build.Leg{Trade: t.ID, Hours: minutes})
		}
	}
	if typed {
		return remedy, legs
	}
	total, _ := r.Hours(remedy, s)
	return remedy, split(b, task, total)
}

// decision is what becomes of the panel as a whole: what was chosen, or what
// follows from the remedy; a repair leaves a decision that was made already.
func (e entry) decision(f *web.Form, remedy build.PanelState) build.PanelState {
	if e.Decision != "" {
		return build.PanelState(f.Choice("decision", "keep", "repair", "replace", "make"))
	}
	if remedy == build.Replace || remedy == build.Make {
		return remedy
	}
	return ""
}

// parts reads the part that the remedy needs, if one is named.
func (e entry) parts(f *web.Form, id build.FindingID, task build.TaskID) []build.Part {
	if strings.TrimSpace(e.Part) == "" {
		if strings.TrimSpace(e.Price) != "" {
			f.Fail("part", "has a price but no name")
		}
		return nil
	}
	return []build.Part{{ID: build.PartID(f.Text("part-id", 1, 20)), Name: f.Text("part", 1, 120), Quantity: int(f.Int("quantity", 1, 1000)),
		Price: unit.Money(f.Decimal("price", 2, 0, mostPrice)), Lead: int(f.Int("lead", 0, 400)), Task: task, State: build.Wanted,
		Because: []build.FindingID{id}}}
}
