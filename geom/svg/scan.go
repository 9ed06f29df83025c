package svg

import (
	"math"
	"strconv"
	"strings"

	"fettle/fault"
)

// scan walks the numbers and letters of one attribute.
type scan struct {
	text string
	at   int
}

// space skips white space and commas.
func (s *scan) space() {
	for s.at < len(s.text) && strings.IndexByte(" \t\r\n\f,", s.text[s.at]) >= 0 {
		s.at++
	}
}

func (s *scan) end() bool {
	s.space()
	return s.at == len(s.text)
}

func (s *scan) fault(format string, args ...any) error {
	return fault.New(fault.Invalid, format, args...).At("character " + strconv.Itoa(s.at+1))
}

// number reads a number of SVG: sign, digits, fraction, exponent.
func (s *scan) number() (float64, error) {
	s.space()
	start, i := s.at, s.at
	if i < len(s.text) && (s.text[i] == '+' || s.text[i] == '-') {
		i++
	}
	digits := 0
	for dot := false; i < len(s.text); i++ {
		if s.text[i] == '.' && !dot {
			dot = true
		} else if digit(s.text[i]) {
			digits++
		} else {
			break
		}
	}
	if digits == 0 {
		return 0, s.fault("a number is missing")
	}
	i += exponent(s.text[i:])
	v, err := strconv.ParseFloat(s.text[start:i], 64)
	if err != nil || math.Abs(v) > 1e15 {
		return 0, s.fault("%.20q is too large", s.text[start:i])
	}
	s.at = i
	return v, nil
}

// exponent returns how long the exponent at the start of a text is; "em" is
// a unit and no exponent.
func exponent(text string) int {
	if text == "" || text[0] != 'e' && text[0] != 'E' {
		return 0
	}
	i := 1
	if i < len(text) && (text[i] == '+' || text[i] == '-') {
		i++
	}
	first := i
	for i < len(text) && digit(text[i]) {
		i++
	}
	if i == first {
		return 0
	}
	return i
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// more says whether a number follows.
func (s *scan) more() bool {
	s.space()
	return s.at < len(s.text) && strings.IndexByte("+-.0123456789", s.text[s.at]) >= 0
}

// flag reads 0 or 1, which may stand without a space before the next number.
func (s *scan) flag() (bool, error) {
	s.space()
	if s.at < len(s.text) && (s.text[s.at] == '0' || s.text[s.at] == '1') {
		s.at++
		return s.text[s.at-1] == '1', nil
	}
	return false, s.fault("a flag of an arc is 0 or 1")
}

// list reads n numbers.
func (s *scan) list(n int) ([]float64, error) {
	out := make([]float64, n)
	for i := range out {
		v, err := s.number()
		if err != nil {
			return nil, err
		}
		out[i] = v
	}
	return out, nil
}
