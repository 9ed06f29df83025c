package readin

import (
	"fmt"
	"slices"
	"strings"

	"fettle/fault"
)

// table gathers raw rows and keeps the limits.
type table struct {
	rows  [][]string
	lines []int
	wide  []int // cells of each row as written, the empty ones behind included
	cells int
	text  int
}

// add keeps a row without its trailing empty cells; an empty row is dropped.
// A cell's text is kept as written but for space around it and the mark that
// spreadsheets put before a sign to show that the cell is no formula.
func (t *table) add(line int, cells []string) error {
	row := make([]string, 0, len(cells))
	last := 0
	for i, c := range cells {
		c = strings.TrimSpace(strings.Trim(c, "\ufeff\x1a\u00a0"))
		if len(c) > mostCell {
			return tooLarge("cell %d holds more than %d kB", i+1, mostCell>>10).At(lineText(line))
		}
		if len(c) > 1 && c[0] == '\'' && strings.ContainsRune("=+-@", rune(c[1])) {
			c = c[1:]
		}
		row = append(row, c)
		if c != "" {
			last = i + 1
			t.text += len(c)
		}
	}
	if last == 0 {
		return nil
	}
	t.cells += last
	t.rows, t.lines, t.wide = append(t.rows, row[:last:last]), append(t.lines, line), append(t.wide, len(cells))
	return t.check(line, last)
}

func (t *table) check(line, width int) error {
	var f *fault.Fault
	switch {
	case width > mostColumns:
		f = tooLarge("there are more than %d columns", mostColumns)
	case len(t.rows) > mostRows:
		f = tooLarge("there are more than %d rows", mostRows)
	case t.cells > mostCells:
		f = tooLarge("there are more than %d cells", mostCells)
	case t.text > mostText:
		f = tooLarge("the cells hold more than %s", bytesText(mostText))
	default:
		return nil
	}
	return f.At(lineText(line))
}

func lineText(line int) string { return fmt.Sprintf("line %d", line) }

// openText reads a list of text.
func openText(data []byte) (Sheet, error) {
	text, encoding, err := decodeText(data)
	if err != nil {
		return Sheet{}, err
	}
	mark, name := findSeparator(text)
	split, t := splitter{text: text, mark: mark, line: 1}, table{}
	for {
		line := split.line
		cells, ok := split.next()
		if !ok {
			break
		}
		if split.wide > 0 {
			return Sheet{}, tooLarge("there are more than %d columns", mostColumns).At(lineText(split.wide))
		}
		if line == 1 && len(cells) <= 2 && strings.HasPrefix(strings.ToLower(cells[0]), "sep=") {
			continue
		}
		if err := t.add(line, cells); err != nil {
			return Sheet{}, err
		}
	}
	s, err := t.sheet(true)
	s.Encoding, s.Separator = encoding, name
	s.remark(split.stray, encoding)
	return s, err
}

// remark adds what the reading of text left in doubt.
func (s *Sheet) remark(stray []int, encoding string) {
	if strings.Contains(encoding, "assumed") {
		s.Notes = append(s.Notes, Note{0, "the encoding is not said in the file; " + encoding +
			": look at letters with accents and at signs such as £ and ½"})
	}
	if strings.Contains(encoding, "broken") {
		s.Notes = append(s.Notes, Note{0, "some characters are broken and stand as \ufffd"})
	}
	for _, line := range stray {
		s.Notes = append(s.Notes, Note{line, "a quotation mark has no partner and is taken as written"})
	}
}

// sheet finds the headings and squares the rows under them. Short rows are
// noted only where strict: a workbook leaves empty cells out by nature.
func (t *table) sheet(strict bool) (Sheet, error) {
	if len(t.rows) == 0 {
		return Sheet{}, invalid("there is nothing in the list")
	}
	at, known := findHeads(t.rows)
	s := Sheet{Heads: t.rows[at], HeadLine: t.lines[at]}
	for _, row := range t.rows[:at] {
		s.Title = strings.TrimSpace(s.Title + " " + strings.Join(row, " "))
	}
	if known == 0 {
		s.Notes = append(s.Notes, Note{s.HeadLine, "no heading on this line is known; it is taken as the headings all the same"})
	}
	width := len(s.Heads)
	if len(t.rows)*width > mostCells {
		return Sheet{}, tooLarge("%d rows of %d columns are more than %d cells", len(t.rows), width, mostCells)
	}
	var long, short []Note
	for i := at + 1; i < len(t.rows); i++ {
		line, row := t.lines[i], t.rows[i]
		if len(row) > width {
			long = append(long, Note{line, fmt.Sprintf("the row has %d cells under %d headings; the cells beyond are not read", len(row), width)})
		}
		if strict && t.wide[i] < width {
			short = append(short, Note{line, fmt.Sprintf("the row has %d of %d cells; the rest is taken as empty", t.wide[i], width)})
		}
		s.Rows = append(s.Rows, square(row, width))
	}
	s.Lines = t.lines[at+1:]
	s.Notes = slices.Concat(s.Notes, fewNotes(long, "longer"), fewNotes(short, "shorter"))
	return s, nil
}

// square makes a row as long as the headings.
func square(row []string, width int) []string {
	if len(row) >= width {
		return row[:width:width]
	}
	return append(row, make([]string, width-len(row))...)
}

// mostNotes is how many ragged rows are told one by one.
const mostNotes = 20

// fewNotes tells many ragged rows in one note.
func fewNotes(notes []Note, word string) []Note {
	if len(notes) <= mostNotes {
		return notes
	}
	return []Note{{notes[0].Line, fmt.Sprintf("%d rows are %s than the headings, this one first; cells that are not there are taken as empty, cells beyond are not read", len(notes), word)}}
}

// headDepth is how far down the headings may stand.
const headDepth = 30

// findHeads returns the index of the heading row and how many of its headings
// are known: the row with the most known ones, else the first of at least two
// cells that hold no number, else the first.
func findHeads(rows [][]string) (at, known int) {
	for i, row := range rows[:min(len(rows), headDepth)] {
		if n := knownHeads(row); n > known {
			at, known = i, n
		}
	}
	if known > 0 {
		return at, known
	}
	for i, row := range rows[:min(len(rows), headDepth)] {
		if len(row) > 1 && !strings.ContainsAny(strings.Join(row, ""), "0123456789") {
			return i, 0
		}
	}
	return 0, 0
}

// knownHeads counts the cells of a row that are names of a field.
func knownHeads(row []string) int {
	best := 0
	for _, kind := range Kinds() {
		n := 0
		for _, c := range Match(kind, row).Columns {
			if c.Sure {
				n++
			}
		}
		best = max(best, n)
	}
	return best
}
