package colour

import (
	"fmt"
	"io"
	"strings"

	"fettle/fault"
)

// ReadCGATS reads the text form of CGATS.17, which most spectrophotometers
// write [CGATS17]: any number of tables of samples with a spectrum, Lab, or
// both. Wavelengths stand in the names of the fields (SPECTRAL_NM380,
// SPECTRAL_380, NM_380, nm380 and the like; SPECTRAL_PCT380 is percent,
// SPECTRAL_DEC380 0 to 1) or as pairs of SPECTRAL_NM with SPECTRAL_PCT or
// SPECTRAL_DEC. A decimal comma is read too. What the file says of the light
// and observer of its Lab stands in the notes.
func ReadCGATS(r io.Reader, scale Scale) ([]Sample, error) {
	lines, err := text(r)
	if err != nil {
		return nil, err
	}
	return readCGATS(lines, scale)
}

func readCGATS(lines []string, scale Scale) ([]Sample, error) {
	p := cgats{words: words(lines)}
	for p.more() {
		if err := p.keyword(); err != nil {
			return nil, err
		}
	}
	if p.tables == 0 {
		return nil, fault.New(fault.Invalid, "there is no BEGIN_DATA in the file: it is not CGATS text").
			WithHint("a table of wavelengths and columns is read as CSV")
	}
	return samples(p.list, scale)
}

// word is a value of the file and the line it stands on.
type word struct {
	text   string
	quoted bool
	line   int
}

func (w word) place() string { return fmt.Sprintf("line %d", w.line) }

// words splits lines at blanks, keeps what is quoted together, and leaves out
// what follows a #.
func words(lines []string) []word {
	var list []word
	for i, l := range lines {
		for l = strings.TrimLeft(l, " \t"); l != "" && l[0] != '#'; l = strings.TrimLeft(l, " \t") {
			if l[0] == '"' {
				if text, rest, closed := strings.Cut(l[1:], `"`); closed {
					list, l = append(list, word{text, true, i + 1}), rest
					continue
				}
			}
			end := strings.IndexAny(l, " \t")
			if end < 0 {
				end = len(l)
			}
			list, l = append(list, word{l[:end], false, i + 1}), l[end:]
		}
	}
	return list
}

// cgats walks the words of a file.
type cgats struct {
	words  []word
	next   int
	fields []field
	named  int      // NUMBER_OF_FIELDS, 0 where not said
	sets   int      // NUMBER_OF_SETS, 0 where not said
	said   []string // what Lab is relative to: WEIGHTING_FUNCTION
	tables int
	list   []curve
}

func (p *cgats) more() bool { return p.next < len(p.words) }

// keyword reads one keyword with what belongs to it; those of no use here are
// passed over with the rest of their line.
func (p *cgats) keyword() (err error) {
	w := p.words[p.next]
	p.next++
	switch strings.ToUpper(w.text) {
	case "NUMBER_OF_FIELDS":
		p.named, err = p.count(w)
	case "NUMBER_OF_SETS":
		p.sets, err = p.count(w)
	case "WEIGHTING_FUNCTION":
		if p.more() && p.words[p.next].line == w.line {
			p.said = append(p.said, p.words[p.next].text)
			p.next++
		}
	case "BEGIN_DATA_FORMAT":
		err = p.format(w)
	case "BEGIN_DATA":
		err = p.data(w)
	default:
		for p.more() && p.words[p.next].line == w.line {
			p.next++
		}
	}
	return err
}

// count reads the whole number after a keyword.
func (p *cgats) count(key word) (int, error) {
	if p.more() && p.words[p.next].line == key.line {
		w := p.words[p.next]
		p.next++
		if v, f := number(w.text); f == nil && v >= 1 && v <= largest && v == float64(int(v)) {
			return int(v), nil
		}
	}
	return 0, fault.New(fault.Invalid, "%s has no whole number behind it", key.text).At(key.place())
}

// upTo returns the words before a closing keyword.
func (p *cgats) upTo(end string, from word) ([]word, error) {
	for i := p.next; i < len(p.words); i++ {
		if w := p.words[i]; !w.quoted && strings.EqualFold(w.text, end) {
			list := p.words[p.next:i]
			p.next = i + 1
			return list, nil
		}
	}
	return nil, fault.New(fault.Invalid, "%s is never closed by %s", from.text, end).At(from.place()).
		WithHint("the file seems cut off: export it again")
}

func (p *cgats) format(from word) error {
	list, err := p.upTo("END_DATA_FORMAT", from)
	if err != nil {
		return err
	}
	p.fields = p.fields[:0]
	for _, w := range list {
		p.fields = append(p.fields, fieldOf(w.text))
	}
	if p.named > 0 && p.named != len(list) {
		return fault.New(fault.Invalid, "NUMBER_OF_FIELDS says %d, the format names %d", p.named, len(list)).At(from.place()).
			WithHint("a field name with a blank in it needs quotes")
	}
	return nil
}

// data reads a table: as many words a sample as the format has fields.
func (p *cgats) data(from word) error {
	list, err := p.upTo("END_DATA", from)
	n := len(p.fields)
	switch {
	case err != nil:
		return err
	case n == 0:
		return fault.New(fault.Invalid, "BEGIN_DATA comes before any field is named").At(from.place()).
			WithHint("BEGIN_DATA_FORMAT … END_DATA_FORMAT stands before the data")
	case len(list)%n != 0:
		return odd(list, n)
	case p.sets > 0 && p.sets != len(list)/n:
		return fault.New(fault.Invalid, "NUMBER_OF_SETS says %d, the table holds %d", p.sets, len(list)/n).At(from.place()).
			WithHint("the file seems cut off or edited: export it again")
	}
	for ; len(list) > 0; list = list[n:] {
		c, err := p.curve(list[:n])
		if err != nil {
			return err
		}
		p.list = append(p.list, c)
	}
	p.tables, p.named, p.sets = p.tables+1, 0, 0
	return nil
}

// odd says in which line the count of values goes wrong.
func odd(list []word, n int) error {
	for i := 0; i < len(list); {
		j := i
		for j < len(list) && list[j].line == list[i].line {
			j++
		}
		if (j-i)%n != 0 {
			return fault.New(fault.Invalid, "%d values, the format names %d fields", j-i, n).At(list[i].place()).
				WithHint("a gap is not guessed at; a name with a blank in it needs quotes")
		}
		i = j
	}
	return fault.New(fault.Invalid, "%d values do not fill samples of %d fields", len(list), n).At(list[0].place())
}
