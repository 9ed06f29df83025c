package loom

import "strconv"

// The measures of the net's drawing in its own units.
const (
	netWide  = 980
	rungHigh = 46
	netTop   = 34
	railPlus = 26
	busAt    = 168
	fromAt   = 196
	fromWide = 196
	wireTo   = 560
	toWide   = 220
	railEnd  = 956
)

func netBox(rungs int) string {
	return "0 0 " + strconv.Itoa(netWide) + " " + strconv.Itoa(netTop+rungs*rungHigh+14)
}

// rungY is the height of the line of a rung.
func rungY(i int) int { return netTop + i*rungHigh + rungHigh/2 }

// px writes a coordinate.
func px(v int) string { return strconv.Itoa(v) }

// short cuts a name to what its box holds.
func short(text string, most int) string {
	runes := []rune(text)
	if len(runes) <= most {
		return text
	}
	return string(runes[:most-1]) + "…"
}
