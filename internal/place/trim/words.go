package trim

import (
	"fmt"
	"strings"

	"fettle/build"
	stage "fettle/stage/trim"
	"fettle/unit"
)

func leftNames(list []stage.Left) string {
	names := make([]string, len(list))
	for i, l := range list {
		names[i] = l.Name
	}
	return strings.Join(names, ", ")
}

func overNames(list []build.PieceID) string {
	names := make([]string, len(list))
	for i, id := range list {
		names[i] = string(id)
	}
	return strings.Join(names, ", ")
}

func rollWords(r build.Roll) string {
	text := fmt.Sprintf("Roll %s, %.0f mm wide", r.ID, r.Width.Mm())
	if r.Edge > 0 {
		text += fmt.Sprintf(", %.0f mm left along both edges and the end", r.Edge.Mm())
	}
	if r.Gap > 0 {
		text += fmt.Sprintf(", %s mm between pieces", short(r.Gap.Mm()))
	}
	if r.Nap {
		text += ", nap: every piece lies one way"
	}
	if r.Repeat > 0 {
		text += fmt.Sprintf(", its pattern comes again every %s mm", short(r.Repeat.Mm()))
	}
	if r.Across > 0 {
		text += fmt.Sprintf(", every %s mm across", short(r.Across.Mm()))
	}
	if r.Lot != "" {
		text += ", lot " + r.Lot
	}
	return text
}

func (c sheetCard) allLocked() bool {
	for _, p := range c.Drawing.Pieces {
		if !p.Locked {
			return false
		}
	}
	return true
}

// sizeText is a length as its field has it.
func sizeText(v unit.Length) string {
	if v == 0 {
		return ""
	}
	return short(v.Mm())
}

// lot is the dye lot, as its tag says.
func (c sheetCard) lot() string {
	lot := c.Hide.Lot
	if c.Roll != nil {
		lot = c.Roll.Lot
	}
	if lot == "" {
		return "not said"
	}
	return lot
}

func paperWord(paper string) string {
	if paper == "one" {
		return "one page a pattern"
	}
	return paper + " tiles"
}
