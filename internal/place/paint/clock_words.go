package paint

import (
	"fmt"
	"strconv"

	"fettle/build"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/mark"
	stage "fettle/stage/paint"
	"fettle/unit"
)

// meanings give the words of a clock their marks.
var meanings = map[string]mark.Meaning{
	stage.Open: mark.Safe, stage.Closing: mark.Slipping, stage.Closed: mark.Lost, stage.Curing: mark.Tight, stage.Bare: mark.Slipping, "not yet": mark.Tight,
}

// when writes a moment: its clock, with the day where that is another.
func when(now, m unit.Moment) string {
	if m.Date() == now.Date() {
		return m.Clock()
	}
	return m.Clock() + " on " + m.Date().Time().Format("Mon 2 Jan")
}

func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// span writes minutes in the largest figures that say enough: "40 min",
// "7 h 10", "3 d 4 h".
func span(minutes int) string {
	n := max(minutes, -minutes)
	switch h := n / 60; {
	case h == 0:
		return fmt.Sprintf("%d min", n)
	case h < 48:
		return fmt.Sprintf("%d h %02d", h, n%60)
	default:
		return fmt.Sprintf("%d d %d h", h/24, h%24)
	}
}

func panelWords(g goPage) string {
	if p := g.Build.Panel(build.PanelID(g.Ask.Raw("panel"))); p != nil {
		return ", metal of " + string(p.ID) + " " + p.FullName()
	}
	return ""
}

// panelOptions lists the panels with the one that was read.
func (s sheet) panelOptions(picked string) []field.Option {
	list := []field.Option{{Label: "not said", Picked: picked == ""}}
	for _, p := range s.Build.Panels {
		list = append(list, field.Option{Value: string(p.ID), Label: string(p.ID) + " " + p.FullName(), Picked: string(p.ID) == picked})
	}
	return list
}
