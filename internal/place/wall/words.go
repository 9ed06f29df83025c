package wall

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"fettle/unit"
)

// fromTo writes "23 Oct to 3 Nov"; a stretch that ends at midnight ends on the
// day before.
func fromTo(from, to unit.Moment) string {
	first, last := from.Date(), lastDay(from, to)
	if first == last {
		return dayMonth(first)
	}
	return dayMonth(first) + " to " + dayMonth(last)
}

func lastDay(from, to unit.Moment) unit.Date { return max((to - 1).Date(), from.Date()) }

func lower(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToLower(first)) + s[size:]
}

func upper(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// fitted cuts a text to a number of letters, at a word where it can.
func fitted(s string, letters int) string {
	if utf8.RuneCountInString(s) <= letters {
		return s
	}
	cut := string([]rune(s)[:max(letters-1, 0)])
	if i := strings.LastIndexByte(cut, ' '); i > len(cut)*4/5 {
		cut = cut[:i]
	}
	return strings.TrimRight(cut, " ,:") + "…"
}
