package readin

import (
	"strings"
	"unicode"
)

// fold brings a name to the form in which names are compared: lower case,
// letters and digits only, words parted by one space.
func fold(text string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(text) {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte(' ')
			gap = false
		}
		b.WriteRune(r)
	}
	return b.String()
}

// nearest returns the index of the name that is fewest slips of the finger
// away from text, or -1 where none is near: one slip in four letters, and at
// least one. The first of equals wins.
func nearest(text string, names []string) int {
	text = fold(text)
	if text == "" || len(text) > longestValue {
		return -1
	}
	allowed := max(1, len([]rune(text))/4)
	best := -1
	for i, name := range names {
		if d := slips(text, fold(name), allowed); d <= allowed {
			best, allowed = i, d-1
		}
	}
	return best
}

// slips counts the letters to add, drop, change or swap with a neighbour that
// turn a into b (optimal string alignment distance), or most+1 beyond most.
func slips(a, b string, most int) int {
	s, t := []rune(a), []rune(b)
	if len(s)-len(t) > most || len(t)-len(s) > most {
		return most + 1
	}
	before, last, row := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(s); i++ {
		row[0] = i
		for j := 1; j <= len(t); j++ {
			change := 1
			if s[i-1] == t[j-1] {
				change = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return min(last[len(t)], most+1)
}
