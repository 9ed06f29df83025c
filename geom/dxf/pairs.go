package dxf

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"fettle/fault"
	"fettle/geom/outline"
)

// pair is a group code with its value and the line the value stands on.
type pair struct {
	code  int
	value string
	line  int
}

// is says whether the pair starts the thing named.
func (p pair) is(name string) bool { return p.code == 0 && p.value == name }

func at(line int) string { return fmt.Sprintf("line %d", line) }

// pairs walks the file. After a call of next, one pair can be put back.
type pairs struct {
	text string
	line int
	back *pair
}

// slurp reads a file of at most outline.MaxBytes.
func slurp(in io.Reader) (*pairs, error) {
	data, err := io.ReadAll(io.LimitReader(in, outline.MaxBytes+1))
	if err != nil {
		return nil, fault.Wrap(fault.Invalid, err, "the drawing cannot be read")
	}
	if len(data) > outline.MaxBytes {
		return nil, fault.New(fault.TooLarge, "the drawing is larger than %d MiB", outline.MaxBytes>>20)
	}
	text := strings.TrimPrefix(string(data), "\ufeff")
	if i := strings.IndexByte(text, 0); i >= 0 {
		return nil, fault.New(fault.Invalid, "this is not a text file").At(at(1 + strings.Count(text[:i], "\n"))).
			WithHint("Save the drawing as ASCII DXF, not as its binary form.")
	}
	return &pairs{text: text}, nil
}

func (r *pairs) row() (string, bool) {
	if r.text == "" {
		return "", false
	}
	row, rest, _ := strings.Cut(r.text, "\n")
	r.text = rest
	r.line++
	return strings.TrimSuffix(row, "\r"), true
}

// next returns the next pair, comments left out. The end of the text is a
// fault: a whole drawing says EOF.
func (r *pairs) next() (pair, error) {
	if p := r.back; p != nil {
		r.back = nil
		return *p, nil
	}
	for {
		head, _ := r.row()
		value, ok := r.row()
		if !ok {
			return pair{}, fault.New(fault.Invalid, "the file ends before EOF: it is cut short, or no DXF").At(at(r.line))
		}
		code, err := strconv.Atoi(strings.TrimSpace(head))
		if err != nil || code < -5 || code > 1071 {
			return pair{}, fault.New(fault.Invalid, "%.20q is not a group code", head).At(at(r.line - 1))
		}
		if code == 999 {
			continue
		}
		if code == 0 || code == 2 || code == 9 {
			value = strings.TrimSpace(value)
		}
		return pair{code, value, r.line}, nil
	}
}

func (r *pairs) unread(p pair) { r.back = &p }

func (p pair) number() (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(p.value), 64)
	if err != nil || !(math.Abs(v) <= 1e15) {
		return 0, fault.New(fault.Invalid, "%.20q is not a number", p.value).At(at(p.line))
	}
	return v, nil
}

// name reads a name: \U+XXXX stands for a letter, and bytes that are not
// UTF-8 are taken as Latin-1.
func (p pair) name() string {
	s := strings.TrimSpace(p.value)
	if !utf8.ValidString(s) {
		letters := make([]rune, len(s))
		for i := range len(s) {
			letters[i] = rune(s[i])
		}
		s = string(letters)
	}
	var b strings.Builder
	for {
		before, after, found := strings.Cut(s, `\U+`)
		b.WriteString(before)
		if !found {
			return b.String()
		}
		s = after
		if n, err := strconv.ParseUint(s[:min(4, len(s))], 16, 16); err == nil && len(s) >= 4 {
			b.WriteRune(rune(n))
			s = s[4:]
		} else {
			b.WriteString(`\U+`)
		}
	}
}
