package metal

import (
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/drawn"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/unit"
)

// kinds are the things that are found, in the trade's own words.
func kinds() []string {
	return []string{"rust-through", "perforated", "lace", "pinholes", "thin metal", "crack", "dent", "old patch under filler", "holes"}
}

// founds are the occasions on which findings turn up.
func founds() []string { return []string{"arrival", "strip", "blast"} }

// entry is a finding as it is typed: every field as text, so that whatever is
// wrong with it can be shown again.
type entry struct {
	ID            string // the ID of the journal entry, made on the tablet
	Panels        []string
	X, Z          string
	Kind, Words   string
	Width, Height string
	Count         string
	Round         bool
	Found         string
	Remedy, How   string
	Decision      string
	Hours         map[build.TradeID]string
	PartID, Part  string
	Quantity      string
	Price, Lead   string
	Photos        []string // in the vault already
	Wrong         field.Errors
}

// first returns what a form starts with: the panel and place that were
// touched, and what can be known without asking.
func first(b *build.Build, r *web.Request) entry {
	e := entry{ID: field.NewEntry(), Count: "1", Quantity: "1", Found: foundNow(b), Remedy: string(build.Repair), Hours: map[build.TradeID]string{},
		PartID: string(b.NextPart()), X: r.Query("x"), Z: r.Query("z"), Round: false}
	for _, id := range r.HTTP().URL.Query()["panel"] {
		if p := b.Panel(build.PanelID(id)); p != nil && !slices.Contains(e.Panels, id) {
			e.Panels = append(e.Panels, id)
			x, z := drawn.Middle(b, p)
			e.X, e.Z = orNumber(e.X, x), orNumber(e.Z, z)
			if p.Decision != build.Keep {
				e.Remedy = string(p.Decision)
			}
		}
	}
	return e
}

func orNumber(typed string, n float64) string {
	if typed != "" {
		return typed
	}
	return strconv.FormatFloat(n, 'f', 0, 64)
}

// typed returns a form as it was sent.
func typed(b *build.Build, f *web.Form) entry {
	e := entry{ID: f.Raw("entry"), X: f.Raw("x"), Z: f.Raw("z"), Kind: f.Raw("kind"), Words: f.Raw("words"), Width: f.Raw("width"),
		Height: f.Raw("height"), Count: f.Raw("count"), Round: f.Has("round"), Found: f.Raw("found"), Remedy: f.Raw("remedy"), How: f.Raw("how"),
		Decision: f.Raw("decision"), PartID: f.Raw("part-id"), Part: f.Raw("part"), Quantity: f.Raw("quantity"), Price: f.Raw("price"),
		Lead: f.Raw("lead"), Hours: map[build.TradeID]string{}}
	for _, id := range f.All("panel") {
		if id != "" && !slices.Contains(e.Panels, id) {
			e.Panels = append(e.Panels, id)
		}
	}
	for _, t := range b.Trades {
		e.Hours[t.ID] = strings.TrimSpace(f.Raw("hours-" + string(t.ID)))
	}
	for _, h := range f.All("photo-kept") {
		if len(h) == 64 {
			e.Photos = append(e.Photos, h)
		}
	}
	return e
}

// loose reads a size without complaint, for a guess while it is being typed.
func (e entry) loose() build.Size {
	mm := func(text string) unit.Length {
		n, err := unit.ParseDecimal(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 3)
		if err != nil || n < 0 || n > mostMM {
			return 0
		}
		return unit.Length(n)
	}
	count, _ := strconv.Atoi(strings.TrimSpace(e.Count))
	return build.Size{Width: mm(e.Width), Height: mm(e.Height), Count: min(max(count, 0), 1000), Round: e.Round}
}

func (e entry) price() unit.Money {
	n, err := unit.ParseDecimal(strings.Replace(strings.TrimSpace(e.Price), ",", ".", 1), 2)
	if err != nil || n < 0 || n > mostPrice {
		return 0
	}
	return unit.Money(n)
}

func (e entry) panel(b *build.Build) *build.Panel {
	if len(e.Panels) == 0 {
		return nil
	}
	return b.Panel(build.PanelID(e.Panels[0]))
}

// foundNow says when a finding of today was found: after the blast, while it
// is stripped, or at arrival.
func foundNow(b *build.Build) string {
	found := "arrival"
	for _, t := range b.Tasks {
		switch {
		case t.Stage != "strip" || t.State == build.NotBegun:
		case t.Outwork != "" && t.State == build.Finished:
			return "blast"
		case len(t.After) > 0:
			found = "strip"
		}
	}
	return found
}
