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
	if r.Nap {
		text += ", nap: every piece lies one way"
	}
	if r.Lot != "" {
		text += ", lot " + r.Lot
	}
	return text
}

func (c hideCard) allLocked() bool {
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

func paperWord(paper string) string {
	if paper == "one" {
		return "one page a pattern"
	}
	return paper + " tiles"
}
