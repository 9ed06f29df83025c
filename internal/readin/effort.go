package readin

import (
	"regexp"
	"strconv"
	"strings"

	"fettle/unit"
)

var (
	clockForm   = regexp.MustCompile(`^(\d{1,4}):(\d{2})(?::00)?$`)
	hourMinutes = regexp.MustCompile(`^(\d{1,4})\s*(?:h|hr|hrs|hour|hours)\.?\s*(\d{1,2})\s*(?:m|min|mins|minutes)?\.?$`)
)

const hoursHint = "write it like 7.5, 7,5 h, 7h30, 7:30 or 45 min"

// parseHours reads an effort: "7.5", "7,5 h", "7h30", "7:30", "7 1/2 hours",
// "45 min". A bare number is in hours.
func (n numeral) parseHours(text string) (unit.Effort, error) {
	t := strings.ToLower(tidy(text))
	if len(t) > longestValue {
		return 0, invalid("the text is too long for hours").WithHint(hoursHint)
	}
	for _, form := range []*regexp.Regexp{clockForm, hourMinutes} {
		if m := form.FindStringSubmatch(t); m != nil {
			h, _ := strconv.Atoi(m[1])
			minutes, _ := strconv.Atoi(m[2])
			if minutes > 59 {
				return 0, invalid("%q has more than 59 minutes", text).WithHint(hoursHint)
			}
			return unit.Effort(h*60 + minutes), nil
		}
	}
	number, word := cutUnit(t)
	value, _, ok := numeral{mark: n.mark}.parse(number) // nobody works a thousand hours on a line
	if !ok {
		return 0, invalid("%q is not a number of hours", text).WithHint(hoursHint)
	}
	per := int64(60)
	switch word {
	case "", "h", "hr", "hrs", "hour", "hours":
	case "m", "min", "mins", "minute", "minutes":
		per = 1
	default:
		return 0, unknownUnit(word, hoursHint)
	}
	minutes, ok := steps(value, per)
	if !ok {
		return 0, invalid("the hours are absurd")
	}
	return unit.Effort(minutes), nil
}

// share is hours under the name of a trade or a person, as written.
type share struct {
	name  string // empty where the text is a bare number
	hours unit.Effort
}

var words = regexp.MustCompile(`\p{L}+`)

// parseShares reads hours by name: "MW 5, LD 2", "5 h MW + 2 h LD",
// "MW: 7h30; LD: 45 min". Without a name it is one share of nobody's.
func (n numeral) parseShares(text string) ([]share, error) {
	t := tidy(text)
	if len(t) > longestValue {
		return nil, invalid("the text is too long for hours").WithHint(hoursHint)
	}
	names := nameSpans(t)
	if len(names) == 0 {
		h, err := n.parseHours(t)
		return []share{{hours: h}}, err
	}
	first := strings.TrimLeft(t[:names[0][0]], " ,;+/&:-(")
	var shares []share
	from := 0
	for i, span := range names {
		value := t[from:span[0]]
		if from = span[1]; first == "" {
			end := len(t)
			if i+1 < len(names) {
				end = names[i+1][0]
			}
			value = t[span[1]:end]
		}
		if value = strings.Trim(value, " ,;+/&:=()"); value == "" {
			return nil, invalid("no hours stand with %q", t[span[0]:span[1]]).WithHint("write it like MW 5, LD 2")
		}
		h, err := n.parseHours(value)
		if err != nil {
			return nil, err
		}
		shares = append(shares, share{t[span[0]:span[1]], h})
	}
	if first != "" && strings.Trim(t[from:], " ,;+/&:=().") != "" {
		return nil, invalid("%q is not hours by trade", text).WithHint("write it like MW 5, LD 2")
	}
	return shares, nil
}

// nameSpans returns where the names stand in a text of hours: runs of words
// that are no unit of time.
func nameSpans(t string) [][2]int {
	var spans [][2]int
	for _, w := range words.FindAllStringIndex(t, -1) {
		if timeWord(strings.ToLower(t[w[0]:w[1]])) {
			continue
		}
		if k := len(spans) - 1; k >= 0 && strings.TrimSpace(t[spans[k][1]:w[0]]) == "" {
			spans[k][1] = w[1]
			continue
		}
		spans = append(spans, [2]int{w[0], w[1]})
	}
	return spans
}

func timeWord(word string) bool {
	switch word {
	case "h", "hr", "hrs", "hour", "hours", "m", "min", "mins", "minute", "minutes", "of":
		return true
	}
	return false
}
