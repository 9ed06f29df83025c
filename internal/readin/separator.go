package readin

import "strings"

// separators in order of preference where nothing else decides.
var separators = [...]struct {
	mark rune
	name string
}{{',', "comma"}, {';', "semicolon"}, {'\t', "tab"}, {'|', "pipe"}}

// sampleRows is how many rows decide on the separator.
const sampleRows = 50

// findSeparator returns the separator under which the first rows are most
// alike, and its name; a list of one column has none, and is split at commas.
// A first line such as "sep=;" decides by itself.
func findSeparator(text string) (rune, string) {
	if rest, ok := strings.CutPrefix(strings.ToLower(text[:min(len(text), 5)]), "sep="); ok && rest != "" {
		for _, s := range separators {
			if rune(rest[0]) == s.mark {
				return s.mark, s.name
			}
		}
	}
	best, bestScore := -1, 0
	for i, s := range separators {
		if score := likeness(text, s.mark); score > bestScore {
			best, bestScore = i, score
		}
	}
	if best < 0 {
		return ',', "none"
	}
	return separators[best].mark, separators[best].name
}

// likeness counts the rows of the sample that have the commonest width, and
// weighs them by that width up to eight columns. One column is worth nothing.
func likeness(text string, mark rune) int {
	s := splitter{text: text, mark: mark, line: 1}
	var widths [mostColumns + 1]int
	for range sampleRows {
		cells, ok := s.next()
		if !ok {
			break
		}
		if w := len(cells); w > 1 {
			widths[w]++
		}
	}
	best := 0
	for w, n := range widths {
		best = max(best, n*min(w, 8))
	}
	return best
}
