package readin

import (
	"strings"
	"unicode/utf8"
)

// splitter cuts text into rows of cells. Lines end in LF, CRLF or CR. A cell
// that begins with a quotation mark runs to the closing one, over line ends
// too; where none closes it within the size of a cell, the mark is taken as
// written, so that one stray mark cannot swallow the rest of the list.
type splitter struct {
	text     string
	mark     rune
	at       int   // byte offset of the next cell
	line     int   // line of that offset, from 1
	unclosed int   // no quotation mark closes before this offset
	stray    []int // lines where a cell begins with a stray quotation mark
	wide     int   // first line with a filled cell beyond the limit of columns, or 0
}

// next returns the cells of the next row, or false at the end. s.line is then
// the line after the row. Cells beyond the limit of columns are dropped; a
// filled one among them is remembered in s.wide.
func (s *splitter) next() (cells []string, ok bool) {
	if s.at >= len(s.text) {
		return nil, false
	}
	for first := s.line; ; {
		cell, end := s.cell()
		if len(cells) < mostColumns {
			cells = append(cells, cell)
		} else if s.wide == 0 && strings.TrimSpace(cell) != "" {
			s.wide = first
		}
		if end {
			return cells, true
		}
	}
}

// cell reads one cell and what ends it; end tells that the row is over.
func (s *splitter) cell() (text string, end bool) {
	if s.at < len(s.text) && s.text[s.at] == '"' && s.at >= s.unclosed {
		if text, after, ok := s.quoted(); ok {
			s.line += strings.Count(strings.ReplaceAll(s.text[s.at:after], "\r\n", "\n"), "\n")
			s.at = after
			return text, s.endCell()
		}
		s.stray = append(s.stray, s.line)
	}
	stop := strings.IndexFunc(s.text[s.at:], s.stops)
	if stop < 0 {
		stop = len(s.text) - s.at
	}
	text = s.text[s.at : s.at+stop]
	s.at += stop
	return text, s.endCell()
}

func (s *splitter) stops(r rune) bool { return r == s.mark || r == '\n' || r == '\r' }

// endCell steps over the separator or the line end at s.at.
func (s *splitter) endCell() (end bool) {
	rest := s.text[s.at:]
	switch {
	case rest == "":
		return true
	case strings.HasPrefix(rest, "\r\n"):
		s.at += 2
	case rest[0] == '\n' || rest[0] == '\r':
		s.at++
	default:
		s.at += utf8.RuneLen(s.mark)
		return false
	}
	s.line++
	return true
}

// quoted reads the quoted cell at s.at; after is the offset behind it. A mark
// inside that is neither doubled nor the last of the cell shows that the first
// one was no quotation mark but, say, inches.
func (s *splitter) quoted() (text string, after int, ok bool) {
	var b strings.Builder
	limit := min(len(s.text), s.at+mostCell+2)
	for i := s.at + 1; i < limit; i++ {
		if s.text[i] != '"' {
			b.WriteByte(s.text[i])
			continue
		}
		if i+1 < len(s.text) && s.text[i+1] == '"' {
			b.WriteByte('"')
			i++
			continue
		}
		tail := strings.TrimLeft(s.text[i+1:], " ")
		closes := tail == "" || s.stops(rune(tail[0]))
		return b.String(), len(s.text) - len(tail), closes
	}
	s.unclosed = limit
	return "", 0, false
}
