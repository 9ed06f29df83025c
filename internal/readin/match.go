package readin

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Column says which column a field is read from.
type Column struct {
	Field string
	Head  string
	At    int    // index of the column
	Unit  string // written in the heading, such as mm; empty is not said
	Of    string // the trade, person or paint zone the column belongs to, as written
	Sure  bool   // Of is certainly one; else it only looks like a short name
}

// Mapping says what every heading of a list means.
type Mapping struct {
	Kind    Kind
	Columns []Column
	Missing []string // needed fields without a column
	Unused  []string // headings that are not read
	heads   []string
}

// Match gives headings to the fields of a kind. Case, spaces and punctuation
// do not matter; a unit behind the name, as in "width (mm)", is kept.
// Headings such as "MW hours" or "MW" are columns of one trade or person, and
// in a list of panels "Limewash m²" is the area in that paint zone.
func Match(k Kind, heads []string) Mapping {
	m := Mapping{Kind: k, heads: heads}
	read := readHeads(heads)
	taken := make([]bool, len(heads))
	for _, f := range Fields(k) {
		if f.With != "" && !m.has(f.With) {
			continue
		}
		if i, unit := findHead(f.Heads, read, taken); i >= 0 {
			taken[i] = true
			m.Columns = append(m.Columns, Column{Field: f.Name, Head: heads[i], At: i, Unit: unit, Sure: true})
		}
	}
	for i, h := range heads {
		if c, ok := ofColumn(k, h); ok && !taken[i] {
			c.Head, c.At = h, i
			m.Columns = append(m.Columns, c)
		}
	}
	m.settle()
	return m
}

// Choose lays a person's own choices over the mapping: field to heading, or to
// the column's number from 1. An empty heading takes the column off the field.
// Fault: Invalid for a field or heading that does not exist.
func (m Mapping) Choose(choices map[string]string) (Mapping, error) {
	m.Columns = slices.Clone(m.Columns)
	for _, f := range Fields(m.Kind) {
		head, chosen := choices[f.Name]
		if !chosen {
			continue
		}
		at := -1
		if head != "" {
			if at = m.column(head); at < 0 {
				return m, invalid("there is no heading %q", head).At(f.Name).WithHint("the headings are: " + strings.Join(m.heads, ", "))
			}
		}
		m.Columns = slices.DeleteFunc(m.Columns, func(c Column) bool { return c.At == at || c.Field == f.Name && c.Of == "" })
		if at >= 0 {
			m.Columns = append(m.Columns, Column{Field: f.Name, Head: m.heads[at], At: at, Unit: readHeads(m.heads)[at].unit, Sure: true})
		}
	}
	for _, name := range sortedKeys(choices) {
		if !slices.ContainsFunc(Fields(m.Kind), func(f Field) bool { return f.Name == name }) {
			return m, invalid("%s have no field %q", m.Kind, name).WithHint("the fields are: " + strings.Join(fieldNames(m.Kind), ", "))
		}
	}
	m.settle()
	return m, nil
}

func sortedKeys(choices map[string]string) []string {
	var keys []string
	for k := range choices {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

func fieldNames(k Kind) []string {
	var names []string
	for _, f := range Fields(k) {
		names = append(names, f.Name)
	}
	return names
}

// column finds a heading as written, then as compared, then by number from 1.
func (m Mapping) column(head string) int {
	if i := slices.Index(m.heads, head); i >= 0 {
		return i
	}
	if i := slices.IndexFunc(m.heads, func(h string) bool { return headKey(h) == headKey(head) && h != "" }); i >= 0 {
		return i
	}
	if n, err := strconv.Atoi(head); err == nil && n >= 1 && n <= len(m.heads) {
		return n - 1
	}
	return -1
}

// settle lists what is missing and what is not used.
func (m *Mapping) settle() {
	m.Missing, m.Unused = nil, nil
	for _, f := range Fields(m.Kind) {
		if f.Need && !m.has(f.Name) && !slices.ContainsFunc(f.Or, m.has) && !m.stoodFor(f.Name) {
			m.Missing = append(m.Missing, f.Name)
		}
	}
	for i, h := range m.heads {
		if h != "" && !slices.ContainsFunc(m.Columns, func(c Column) bool { return c.At == i }) {
			m.Unused = append(m.Unused, h)
		}
	}
}

// stoodFor tells that columns by person say who worked and how long.
func (m Mapping) stoodFor(field string) bool {
	byName := slices.ContainsFunc(m.Columns, func(c Column) bool { return c.Field == "hours" && c.Of != "" })
	return m.Kind == Hours && (field == "person" || field == "hours") && byName
}

// has tells whether a field has a column of its own.
func (m Mapping) has(field string) bool {
	return slices.ContainsFunc(m.Columns, func(c Column) bool { return c.Field == field && c.Of == "" })
}

// head is a heading as it is compared: whole, and without the unit at its end.
type head struct{ whole, bare, unit string }

var (
	inBrackets = regexp.MustCompile(`[(\[{]([^)\]}]*)[)\]}]`)
	unitBehind = regexp.MustCompile(`^(.+?)[ ,/]+(?:in )?(mm|cm|m|in|ins|inch|inches|ft|feet|h|hr|hrs|hours|min|minutes|days|working days|weeks|wk|wks)$`)
)

func readHeads(heads []string) []head {
	read := make([]head, len(heads))
	for i, text := range heads {
		if len(text) > longestValue {
			continue
		}
		read[i].whole = headKey(text)
		bare := tidy(text)
		if m := inBrackets.FindStringSubmatch(bare); m != nil {
			read[i].unit = headUnit(m[1])
			bare = inBrackets.ReplaceAllString(bare, " ")
		} else if m := unitBehind.FindStringSubmatch(strings.ToLower(strings.TrimRight(bare, ". "))); m != nil {
			bare, read[i].unit = m[1], m[2]
		}
		read[i].bare = headKey(bare)
	}
	return read
}

// headUnit keeps what stands in brackets if it can be a unit: one or two words
// of letters. Money signs and longer remarks are no unit.
func headUnit(text string) string {
	text = strings.ToLower(strings.Trim(tidy(text), ". "))
	text = strings.TrimPrefix(text, "in ")
	letters := strings.IndexFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && r != ' ' && r != '"' }) < 0
	if !letters || strings.Count(text, " ") > 1 || slices.Contains(remarks, text) {
		return ""
	}
	return text
}

// remarks stand in brackets behind a heading and are no unit.
var remarks = []string{"approx", "about", "est", "estimate", "estimated", "max", "min", "total", "each", "optional",
	"if any", "if known", "by trade", "per trade", "w", "h", "l", "d", "number", "no", "name", "net", "gross"}

// headKey folds a heading; "#" alone is a heading too.
func headKey(text string) string {
	if key := fold(text); key != "" {
		return key
	}
	return strings.Trim(text, " :._")
}

// findHead returns the free column that bears the earliest of the names.
func findHead(names []string, heads []head, taken []bool) (at int, unit string) {
	for _, name := range names {
		for i, h := range heads {
			if !taken[i] && h.whole == name {
				return i, ""
			}
		}
	}
	for _, name := range names {
		for i, h := range heads {
			if !taken[i] && h.bare == name {
				return i, h.unit
			}
		}
	}
	return -1, ""
}

var (
	hoursOf = regexp.MustCompile(`(?i)^(?:(?:hours|hrs|h)[ :.,(/-]+(?:of +|by +|for +)?(.+?)|(.+?)[ :.,(/-]+(?:hours|hrs|h))[ .)]*$`)
	areaOf  = regexp.MustCompile(`(?i)^(?:area[ :(/-]+(?:in +|of +)?)?(.+?)[ ,(/-]+(m2|m²|sq ?m|sqm|ft2|ft²|sq ?ft)[ .)]*$`)
	initial = regexp.MustCompile(`^[A-Z][A-Z0-9]{0,3}$`)
)

// ofColumn reads headings that name a trade, a person or a paint zone.
func ofColumn(k Kind, text string) (Column, bool) {
	if text = tidy(text); len(text) > longestValue {
		return Column{}, false
	}
	switch k {
	case Panels:
		if m := areaOf.FindStringSubmatch(text); m != nil {
			return Column{Field: "area", Of: m[1], Unit: strings.ToLower(m[2]), Sure: true}, true
		}
	case Findings, Hours:
		if m := hoursOf.FindStringSubmatch(text); m != nil && !endsInDigit(m[1]+m[2]) {
			return Column{Field: "hours", Of: strings.Trim(m[1]+m[2], " ()"), Sure: true}, true
		}
		if initial.MatchString(text) {
			return Column{Field: "hours", Of: text}, true
		}
	}
	return Column{}, false
}

// endsInDigit tells a cell such as "5 h" from the name of a trade.
func endsInDigit(text string) bool {
	return text != "" && text[len(text)-1] >= '0' && text[len(text)-1] <= '9'
}
