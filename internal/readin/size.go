package readin

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/unit"
)

var (
	roundWords  = regexp.MustCompile(`(?i)\b(diameter|dia|round|across)\b\.?|[ø⌀]`)
	countBefore = regexp.MustCompile(`(?i)^(\d{1,6})\s*(?:of|off|no\.?|nr\.?|pcs|holes|places|times)\s+(\S.*)$`)
	countAfter  = regexp.MustCompile(`(?i)^(.*\S)\s*\(?\s*\b(\d{1,6})\s*(?:off|no\.?|nr\.?|pcs|holes|places|times)\s*\)?$`)
	timesMark   = regexp.MustCompile(`\s*(?:[×*xX]|\bby\b)\s*`)
	rangeMark   = regexp.MustCompile(`^([\d.,/ ]+?)\s*(?:-|to)\s*([\d.,/ ]+.*)$`)
)

const sizeHint = "write it like 260x180, 10 x 4 in, 70, 30 dia, 6 x 30 dia or 160x80 x2"

// parseSize reads the size of a finding:
//
//	260x180   10 x 4 in   2'6" x 4"   width and height
//	70                                a crack: width only
//	30 dia    6 x 30 dia   11 x 8-38 dia   holes, with their number and range
//	160x80 x2   2 of 160x80   160x80 (2 off)   several equal places
//
// A bare number takes the unit written elsewhere in the size, else fallback.
func (n numeral) parseSize(text, fallback string) (size build.Size, doubt bool, err error) {
	t := tidy(text)
	if len(t) > longestValue {
		return size, false, invalid("the text is too long for a size").WithHint(sizeHint)
	}
	if plain := roundWords.ReplaceAllString(t, " "); plain != t {
		size.Round, t = true, strings.TrimSpace(plain)
	}
	size.Count, t = cutCount(t)
	pieces := timesMark.Split(t, -1)
	if size.Count == 0 {
		size.Count, pieces = countPiece(pieces, size.Round)
	}
	most := 2
	if size.Round {
		most = 1
	}
	if len(pieces) > most || size.Count < 0 {
		return size, false, invalid("%q is not a size", text).WithHint(sizeHint)
	}
	if size.Round {
		if m := rangeMark.FindStringSubmatch(pieces[0]); m != nil && !strings.Contains(m[2], "/") {
			pieces = []string{m[2], m[1]}
		}
	}
	sides, doubt, err := n.sides(pieces, fallback)
	if err != nil {
		return size, false, err
	}
	size.Width, size.Height = sides[0], sides[1]
	return size, doubt, nil
}

// cutCount takes "6 of" or "(2 off)" from a size; 0 is no count.
func cutCount(text string) (count int, rest string) {
	if m := countBefore.FindStringSubmatch(text); m != nil {
		count, _ = strconv.Atoi(m[1])
		return count, m[2]
	}
	if m := countAfter.FindStringSubmatch(text); m != nil {
		count, _ = strconv.Atoi(m[2])
		return count, strings.TrimRight(m[1], " (")
	}
	return 0, text
}

// countPiece takes the count out of the pieces between the times signs: the
// third of three, or the first of two before holes. -1 is a count that is no
// whole number.
func countPiece(pieces []string, round bool) (count int, rest []string) {
	i := 2
	if round {
		i = 0
	}
	if len(pieces) != 3 && !(round && len(pieces) == 2) || round && len(pieces) == 3 {
		return 0, pieces
	}
	count, err := strconv.Atoi(pieces[i])
	if err != nil || count < 1 {
		return -1, pieces
	}
	return count, slices.Delete(pieces, i, i+1)
}

// sides reads one or two lengths. A bare number takes the unit of the other.
func (n numeral) sides(pieces []string, fallback string) (sides [2]unit.Length, doubt bool, err error) {
	var read [2]length
	for i, p := range pieces {
		if read[i], err = n.readLength(p); err != nil {
			return sides, false, err
		}
		if word := read[i].unit; word != "" && (i == 0 || read[0].unit == "") {
			fallback = word
		}
		doubt = doubt || read[i].doubt
	}
	for i := range pieces {
		if sides[i], err = read[i].micro(fallback); err != nil {
			return sides, false, err
		}
	}
	return sides, doubt, nil
}
