package geom

import (
	"fmt"
	"math"
	"strconv"

	"fettle/fault"
)

// maxCoordinate keeps areas and their sums well inside a float64.
const maxCoordinate = 1e7

// ParsePath reads path data made of the absolute commands M, L, C, Q and Z
// with decimal numbers, set apart by spaces or commas. As in SVG, further
// points after a command repeat it, and points after an M are joined by
// lines. Relative commands, arcs and exponents are refused. An empty text is
// an empty path.
//
// The error is a fault of kind Invalid whose Where is the place of the
// trouble in the text, counted in bytes from 1.
func ParsePath(text string) (Path, error) {
	r := pathReader{text: text}
	for {
		r.skipSpace()
		if r.at == len(text) {
			return r.path, nil
		}
		if err := r.command(); err != nil {
			return Path{}, err
		}
	}
}

// pathReader walks the text and grows the path.
type pathReader struct {
	text string
	at   int
	path Path
	pen  Point
	open bool // a stroke has begun and no Z has ended it
}

// wants says how many points one step of a command takes.
func wants(letter byte) (points int, known bool) {
	switch letter {
	case 'M', 'L':
		return 1, true
	case 'Q':
		return 2, true
	case 'C':
		return 3, true
	case 'Z':
		return 0, true
	}
	return 0, false
}

func (r *pathReader) command() error {
	start, letter := r.at, r.text[r.at]
	count, known := wants(letter)
	if !known {
		return r.fault(start, "%q is not one of the commands M, L, C, Q and Z", letter)
	}
	if letter != 'M' && !r.open {
		return r.fault(start, "%c stands before any M", letter)
	}
	r.at++
	if letter == 'Z' {
		r.last().closed, r.open, r.pen = true, false, r.last().start
		return nil
	}
	for first := true; first || r.moreNumbers(); first = false {
		var at [3]Point
		for i := range at[:count] {
			p, err := r.point()
			if err != nil {
				return err
			}
			at[i] = p
		}
		r.step(letter, at)
		if letter == 'M' {
			letter = 'L'
		}
	}
	return nil
}

func (r *pathReader) last() *ring { return &r.path.rings[len(r.path.rings)-1] }

// step adds one piece; at holds as many points as the letter wants.
func (r *pathReader) step(letter byte, at [3]Point) {
	var s seg
	switch letter {
	case 'M':
		r.path.rings = append(r.path.rings, ring{start: at[0]})
		r.pen, r.open = at[0], true
		return
	case 'L':
		s = lineTo(r.pen, at[0])
	case 'Q':
		s = quadTo(r.pen, at[0], at[1])
	case 'C':
		s = seg{at[0], at[1], at[2], false}
	}
	r.last().segs = append(r.last().segs, s)
	r.pen = s.end
}

func (r *pathReader) point() (Point, error) {
	x, err := r.number()
	if err != nil {
		return Point{}, err
	}
	y, err := r.number()
	return Point{x, y}, err
}

// number reads an optional sign, digits, and an optional fraction.
func (r *pathReader) number() (float64, error) {
	r.skipSpace()
	start := r.at
	if r.at < len(r.text) && (r.text[r.at] == '-' || r.text[r.at] == '+') {
		r.at++
	}
	digits := r.digits()
	if r.at < len(r.text) && r.text[r.at] == '.' {
		r.at++
		digits += r.digits()
	}
	if digits == 0 {
		return 0, r.fault(start, "a number is missing")
	}
	v, err := strconv.ParseFloat(r.text[start:r.at], 64)
	if err != nil || math.Abs(v) > maxCoordinate {
		return 0, r.fault(start, "the number is larger than %.0f", maxCoordinate)
	}
	return v, nil
}

func (r *pathReader) digits() int {
	start := r.at
	for r.at < len(r.text) && r.text[r.at] >= '0' && r.text[r.at] <= '9' {
		r.at++
	}
	return r.at - start
}

func (r *pathReader) skipSpace() {
	for r.at < len(r.text) {
		switch r.text[r.at] {
		case ' ', '\t', '\n', '\r', ',':
			r.at++
		default:
			return
		}
	}
}

// moreNumbers says whether the next word is a number rather than a command.
func (r *pathReader) moreNumbers() bool {
	r.skipSpace()
	if r.at == len(r.text) {
		return false
	}
	c := r.text[r.at]
	return c == '-' || c == '+' || c == '.' || c >= '0' && c <= '9'
}

func (r *pathReader) fault(at int, format string, args ...any) error {
	return fault.New(fault.Invalid, format, args...).
		At(fmt.Sprintf("path, character %d", at+1)).
		WithHint("Use M, L, C, Q and Z in capitals with plain numbers, such as M 0 0 L 100 0 L 100 50 Z.")
}
