package away

import (
	"fmt"
	"strconv"

	"fettle/unit"
)

// The line of a load's time runs from 8 to 392 in the drawing.
const (
	lineFrom, lineTo = 8.0, 392.0
)

// need is the day the pieces are needed; their return where nothing waits.
func (c card) need() unit.Date { return max(c.NeedBy, c.Back) }

// at places a day on the line.
func (c card) at(d unit.Date) float64 {
	whole := max(c.need()-c.Out, 1)
	return lineFrom + float64(d-c.Out)/float64(whole)*(lineTo-lineFrom)
}

func (c card) says() string {
	text := fmt.Sprintf("out %s, likely back %s", c.Out.Short(), c.Back.Short())
	if c.NeedBy != 0 {
		text += ", needed " + c.NeedBy.Short()
	}
	return text
}

// count says how many pieces went, and came.
func (c card) count() string {
	if c.here() {
		return fmt.Sprintf("%d, of which %d counted back", c.Pieces, c.Facts.Counted)
	}
	return strconv.Itoa(c.Pieces)
}

func px(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }
