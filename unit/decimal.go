package unit

import (
	"errors"
	"math"
	"strconv"
	"strings"
)

// ErrDecimal is returned for text that is not a plain decimal number.
var ErrDecimal = errors.New("not a plain decimal number")

// ErrRange is returned for a number too large to keep.
var ErrRange = errors.New("number out of range")

// ParseDecimal reads a plain decimal such as "-12.5" as a whole number of
// steps of 10^-places. Digits beyond places are rounded half away from zero.
// Exponents, spaces and thousands marks are refused.
func ParseDecimal(text string, places int) (int64, error) {
	rest, negative := strings.CutPrefix(text, "-")
	whole, fraction, _ := strings.Cut(rest, ".")
	if whole == "" || !digits(whole) || !digits(fraction) {
		return 0, ErrDecimal
	}
	up := len(fraction) > places && fraction[places] >= '5'
	if len(fraction) > places {
		fraction = fraction[:places]
	}
	n, err := strconv.ParseInt(whole+fraction+strings.Repeat("0", places-len(fraction)), 10, 64)
	if err != nil || up && n == math.MaxInt64 {
		return 0, ErrRange
	}
	if up {
		n++
	}
	if negative {
		n = -n
	}
	return n, nil
}

// FormatDecimal writes n steps of 10^-places with at least so many decimals
// and no further trailing zeros.
func FormatDecimal(n int64, places, least int) string {
	text := strconv.FormatInt(n, 10)
	sign := ""
	if n < 0 {
		sign, text = "-", text[1:]
	}
	if len(text) <= places {
		text = strings.Repeat("0", places-len(text)+1) + text
	}
	whole, fraction := text[:len(text)-places], text[len(text)-places:]
	for len(fraction) > least && fraction[len(fraction)-1] == '0' {
		fraction = fraction[:len(fraction)-1]
	}
	if fraction == "" {
		return sign + whole
	}
	return sign + whole + "." + fraction
}

// MulDiv returns a*b/c rounded half away from zero, for |a*b| < 2^62 and
// 0 < c < 2^62.
func MulDiv(a, b, c int64) int64 {
	product := a * b
	if product < 0 {
		return -((-product + c/2) / c)
	}
	return (product + c/2) / c
}

func digits(text string) bool {
	for i := 0; i < len(text); i++ {
		if text[i] < '0' || text[i] > '9' {
			return false
		}
	}
	return true
}

// decodeDecimal reads a JSON number, or a plain decimal in quotes, in steps of
// 10^-places. Only a number may have an exponent.
func decodeDecimal(data []byte, places int) (int64, error) {
	text := string(data)
	if quoted := strings.Trim(text, `"`); quoted != text {
		return ParseDecimal(quoted, places)
	}
	if strings.ContainsAny(text, "eE") && text[0] <= '9' {
		f, err := strconv.ParseFloat(text, 64)
		if err != nil || math.Abs(f) > 1e12 {
			return 0, ErrRange
		}
		text = strconv.FormatFloat(f, 'f', -1, 64) // all digits: they are rounded once, in ParseDecimal
	}
	return ParseDecimal(text, places)
}
