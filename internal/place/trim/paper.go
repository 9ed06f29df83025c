package trim

import (
	"fmt"
	"strings"

	"fettle/build"
)

// What to look at before the knife.
var (
	hideCautions = []string{
		"Lay the hide face up and look at it again in daylight: chalk round every mark before the first pattern goes down. Never cut over a mark that is not on this drawing.",
		"Nothing is turned over: leather has a face. L and R are two patterns.",
		"Arrows lie along the least stretch of the hide. Pull a strip of this hide first.",
		"Check the scale: measure one pattern with a steel rule against the size in the list.",
		"Lay all patterns down before you cut one, the largest first; the drawing may be off by the error stated.",
		"Knife: cut away from the hand, glove on the one that holds the rule, blade closed when it lies down.",
	}
	rollCautions = []string{
		"Measure the width of the roll: it is nominal. Square the end before you measure from it.",
		"Nap runs down on panels: every arrow one way. One length, one lot.",
		"Check the scale: measure one pattern with a steel rule against the size in the list.",
		"Knife and shears: cut away from the hand; blade closed when it lies down.",
	}
)

// paperSheet is the drawing of a hide or a roll with the numbers of the cutting order.
func (page layPage) paperSheet(c sheetCard) drawing {
	d := c.Drawing
	d.ID = "paper-" + d.ID
	return numbered(d, page.cutOrder(page.Material, page.placed(), c.Hide.ID))
}

func numbered(d drawing, list []ordered) drawing {
	pieces := make([]drawnPiece, len(d.Pieces))
	copy(pieces, d.Pieces)
	d.Pieces = pieces
	for _, o := range list {
		for i := range pieces {
			if pieces[i].Name == o.Name {
				pieces[i].Words = fmt.Sprint(o.Number)
			}
		}
	}
	return d
}

func marksText(h build.Hide) string {
	var list []string
	for _, m := range h.Marks {
		b := m.Shape.Polygon().Bounds()
		text := fmt.Sprintf("%s %s, %.0f × %.0f mm, %s", m.ID, m.Kind, b.Width(), b.Height(), m.Takes())
		if m.Note != "" {
			text += " (" + m.Note + ")"
		}
		list = append(list, text)
	}
	return strings.Join(list, "; ")
}
