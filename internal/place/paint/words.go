package paint

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/paint"
	"fettle/unit"
)

func plural(n int, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}

func counted(n int, one string) string { return fmt.Sprintf("%d %s", n, plural(n, one, one+"s")) }

// joined writes panels as a field takes them.
func joined(panels []build.PanelID) string {
	words := make([]string, len(panels))
	for i, id := range panels {
		words[i] = string(id)
	}
	return strings.Join(words, " ")
}

// fewPanels is how many panels are named one by one.
const fewPanels = 6

// panelNames names panels, or counts them, or names their zones.
func panelNames(b *build.Build, panels []build.PanelID, zones []build.ZoneID) string {
	var words []string
	switch {
	case len(panels) > fewPanels:
		return fmt.Sprintf("%d panels", len(panels))
	case len(panels) == 0:
		for _, id := range zones {
			words = append(words, b.ZoneName(id))
		}
	}
	for _, id := range panels {
		if p := b.Panel(id); p != nil {
			words = append(words, string(id)+" "+p.FullName())
		}
	}
	return strings.Join(words, ", ")
}

func names(c mixCard) string { return panelNames(c.Build, c.Ask.Panels, c.Pour.Zones) }

// tinWords says batch and grade of a tin.
func tinWords(t build.Tin) string {
	text := ""
	if t.Batch != "" {
		text += ", batch " + t.Batch
	}
	if t.Grade != "" {
		text += ", " + t.Grade
	}
	return text
}

func batchName(a stage.Batch) string {
	if a.Name == "" {
		return "not written down"
	}
	return a.Name
}

// cups are the cups to choose from.
func (c mixCard) cups() []field.Option {
	picked := c.Cup.Name
	if picked == "" {
		picked = c.Ask.Product.Viscosity.Cup
	}
	return field.Words(stage.CupNames(), picked)
}

// keepsUntil is the last day of a tin's shelf life, 0 where the sheet says none
// or nobody wrote down when it came.
func (s sheet) keepsUntil(t build.Tin) unit.Date {
	p := s.Build.Product(t.Product)
	if p.ShelfLife == 0 || t.Arrived == 0 {
		return 0
	}
	return t.Arrived + unit.Date(p.ShelfLife)
}

// stale says that a tin is past the shelf life of its sheet, or nothing.
func (s sheet) stale(t build.Tin) string {
	if end := s.keepsUntil(t); end != 0 && t.Left > 0 && end < s.Today {
		return "past its shelf life since " + end.Long()
	}
	return ""
}

// tinAfter says what a tin holds once a mix is poured from it.
func tinAfter(t build.Tin, after unit.Volume) string {
	if after < 0 {
		return ", holds only " + t.Left.String()
	}
	return ", " + after.String() + " left after"
}
