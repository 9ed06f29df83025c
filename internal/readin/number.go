package readin

import (
	"math/big"
	"strings"
)

// longest text that is looked at as a number, a size or a date, in bytes.
const longestValue = 200

// numeral says how a lone mark followed by three digits is read.
type numeral struct {
	mark  byte   // the decimal mark of the list, ',' or '.'; 0 is not known
	group string // marks that then part thousands, where mark is not known
}

// tidy brings the many forms of space, minus and fraction to plain ones.
func tidy(text string) string {
	return strings.TrimSpace(tidier.Replace(text))
}

var tidier = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ", "\u2007", " ", "−", "-", "–", "-", "—", "-",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⁄", "/",
	"’", "'", "′", "'", "″", "\"", "”", "\"", "“", "\"", "''", "\"", "\t", " ", "\n", " ", "\r", " ")

// parse reads a whole number, a decimal or a fraction such as "1 1/2", exactly.
// doubt tells that a mark could also have been the other one.
func (n numeral) parse(text string) (value *big.Rat, doubt, ok bool) {
	text = tidy(text)
	if text == "" || len(text) > longestValue {
		return nil, false, false
	}
	body, minus := strings.CutPrefix(text, "-")
	if !minus {
		body = strings.TrimPrefix(body, "+")
	}
	body = strings.TrimSpace(body)
	whole, fraction := body, ""
	if slash := strings.IndexByte(body, '/'); slash >= 0 {
		cut := strings.LastIndexAny(body[:slash], " -") + 1
		whole, fraction = strings.TrimRight(body[:cut], " -"), body[cut:]
	}
	value = new(big.Rat)
	if whole != "" || fraction == "" {
		plain, unsure, good := n.plain(whole)
		if !good || fraction != "" && strings.Contains(plain, ".") {
			return nil, false, false
		}
		doubt = unsure
		value.SetString(plain)
	}
	if fraction != "" {
		part, good := parseFraction(fraction)
		if !good {
			return nil, false, false
		}
		value.Add(value, part)
	}
	if minus {
		value.Neg(value)
	}
	return value, doubt, true
}

// parseFraction reads "3/8"; top and bottom have at most four digits.
func parseFraction(text string) (*big.Rat, bool) {
	top, bottom, _ := strings.Cut(text, "/")
	if !digits(top) || !digits(bottom) || len(top) > 4 || len(bottom) > 4 || strings.Trim(bottom, "0") == "" {
		return nil, false
	}
	return new(big.Rat).SetString(top + "/" + bottom)
}

// plain rewrites digits with decimal and thousands marks to digits with at
// most one point.
func (n numeral) plain(text string) (plain string, doubt, ok bool) {
	commas, points := strings.Count(text, ","), strings.Count(text, ".")
	decimal := byte(0)
	switch {
	case commas > 0 && points > 0:
		decimal = text[max(strings.LastIndexByte(text, ','), strings.LastIndexByte(text, '.'))]
	case commas+points == 1:
		decimal, doubt = n.lone(text)
	}
	whole, fraction := text, ""
	if decimal != 0 {
		if strings.Count(text, string(decimal)) > 1 {
			return "", false, false
		}
		whole, fraction, _ = strings.Cut(text, string(decimal))
		if fraction == "" || !digits(fraction) {
			return "", false, false
		}
	}
	whole, ok = ungroup(whole)
	if !ok || whole == "" && fraction == "" {
		return "", false, false
	}
	if whole == "" {
		whole = "0"
	}
	if fraction != "" {
		whole += "." + fraction
	}
	return whole, doubt, true
}

// lone decides what the only mark of a number is: the decimal mark, or 0 for a
// mark between thousands.
func (n numeral) lone(text string) (decimal byte, doubt bool) {
	i := strings.IndexAny(text, ",.")
	mark, before, after := text[i], text[:i], text[i+1:]
	thousands := len(after) == 3 && len(before) >= 1 && len(before) <= 3 && before[0] != '0'
	switch {
	case !thousands, n.mark == mark:
		return mark, false
	case n.mark != 0:
		return 0, false
	case strings.IndexByte(n.group, mark) >= 0:
		return 0, true
	}
	return mark, false
}

// ungroup takes the marks between thousands out: groups of three after a first
// group of one to three digits, all parted by the same mark.
func ungroup(text string) (string, bool) {
	i := strings.IndexAny(text, ",.' ")
	if i < 0 {
		return text, digits(text)
	}
	groups := strings.Split(text, text[i:i+1])
	for k, g := range groups {
		if !digits(g) || k > 0 && len(g) != 3 || k == 0 && (len(g) < 1 || len(g) > 3) {
			return "", false
		}
	}
	return strings.Join(groups, ""), true
}

// digits tells whether text holds nothing but digits; empty text does too.
func digits(text string) bool {
	return strings.Trim(text, "0123456789") == ""
}

// steps returns value × per, rounded half away from zero to a whole number.
func steps(value *big.Rat, per int64) (int64, bool) {
	v := new(big.Rat).Mul(value, new(big.Rat).SetInt64(per))
	num, den := new(big.Int).Abs(v.Num()), v.Denom()
	num.Mul(num, big.NewInt(2)).Add(num, den)
	num.Quo(num, new(big.Int).Mul(den, big.NewInt(2)))
	if !num.IsInt64() || num.Int64() > 1e15 {
		return 0, false
	}
	if v.Sign() < 0 {
		return -num.Int64(), true
	}
	return num.Int64(), true
}

// decimalMark finds the decimal mark of a list from its cells that leave no
// doubt, such as "12,5" or "1.150,00"; 0 where there are none, or both.
func decimalMark(rows [][]string) byte {
	comma, point := false, false
	for _, row := range rows {
		for _, cell := range row {
			switch sureMark(cell) {
			case ',':
				comma = true
			case '.':
				point = true
			}
		}
	}
	switch {
	case comma && !point:
		return ','
	case point && !comma:
		return '.'
	}
	return 0
}

// sureMark returns the decimal mark of a cell that is one number, perhaps with
// a sign or unit around it, and 0 where it cannot be told.
func sureMark(cell string) byte {
	if len(cell) > 24 {
		return 0
	}
	cell = strings.Trim(cell, " -+£$€abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ.²\u00a0")
	i := strings.LastIndexAny(cell, ",.")
	if i <= 0 || !digits(strings.Map(dropMarks, cell)) {
		return 0
	}
	after := len(cell) - i - 1
	both := strings.ContainsRune(cell, ',') && strings.ContainsRune(cell, '.')
	if strings.Count(cell, cell[i:i+1]) > 1 || after == 0 || after == 3 && !both && cell[0] != '0' {
		return 0
	}
	return cell[i]
}

func dropMarks(r rune) rune {
	if r == ',' || r == '.' {
		return -1
	}
	return r
}
