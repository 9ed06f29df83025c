package readin

import (
	"math/big"
	"strings"

	"fettle/fault"
	"fettle/unit"
)

// lengthUnit returns the micrometres of a unit of length.
func lengthUnit(word string) (unit.Length, bool) {
	switch word {
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return unit.Millimetre, true
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters":
		return 10 * unit.Millimetre, true
	case "m", "metre", "metres", "meter", "meters":
		return unit.Metre, true
	case "in", "ins", "inch", "inches", "\"":
		return unit.Inch, true
	case "ft", "foot", "feet", "'":
		return 12 * unit.Inch, true
	}
	return 0, false
}

// length is a length as it was written: its number, its unit, and whether the
// unit was written there.
type length struct {
	value *big.Rat
	unit  string
	um    unit.Length // filled where the number is feet and inches already
	whole bool        // um is filled
	doubt bool        // a mark could have been the other one
}

// micro returns the length in micrometres; bare numbers take the unit fallback.
func (l length) micro(fallback string) (unit.Length, error) {
	if l.whole {
		return l.um, nil
	}
	word := l.unit
	if word == "" {
		word = fallback
	}
	per, ok := lengthUnit(word)
	if !ok {
		return 0, unknownUnit(word, "mm, cm, m, in and ft are understood")
	}
	n, ok := steps(l.value, int64(per))
	if !ok {
		return 0, invalid("the length is absurd")
	}
	return unit.Length(n), nil
}

func unknownUnit(word, known string) *fault.Fault {
	return invalid("the unit %q is not known", word).WithHint(known)
}

// readLength reads one length: "260", "25 cm", "10 in", "1 1/2\"", "2'6\"".
func (n numeral) readLength(text string) (length, error) {
	text = tidy(text)
	if len(text) > longestValue {
		return length{}, invalid("the text is too long for a length")
	}
	if l, ok := n.feetAndInches(text); ok {
		return l, nil
	}
	number, word := cutUnit(text)
	value, doubt, ok := n.parse(number)
	if !ok {
		return length{}, invalid("%q is not a length", text).WithHint("write it like 260, 25 cm, 10 in, 1/2 in or 2'6\"")
	}
	return length{value: value, unit: word, doubt: doubt}, nil
}

// cutUnit parts a number from the unit behind it.
func cutUnit(text string) (number, word string) {
	end := strings.LastIndexAny(text, "0123456789") + 1
	return strings.TrimSpace(text[:end]), strings.ToLower(strings.TrimRight(strings.TrimSpace(text[end:]), ". "))
}

// feetAndInches reads "2'6\"", "2 ft 6 in", "2'-6 1/2\"" and "2'6". Feet alone
// are read as any other unit.
func (n numeral) feetAndInches(text string) (length, bool) {
	lower := string(asciiLower([]byte(text))) // of the same length, so that offsets hold
	for _, mark := range []string{"'", "feet", "foot", "ft"} {
		i := strings.Index(lower, mark)
		if i < 0 {
			continue
		}
		feet, doubt, ok := n.parse(text[:i])
		rest := strings.TrimLeft(text[i+len(mark):], ". -")
		if !ok || rest == "" {
			return length{}, false
		}
		number, word := cutUnit(rest)
		inches, _, good := n.parse(number)
		if per, known := lengthUnit(word); !good || word != "" && (!known || per != unit.Inch) || inches.Sign() < 0 {
			return length{}, false
		}
		minus := feet.Sign() < 0
		total := new(big.Rat).Mul(feet.Abs(feet), big.NewRat(12, 1))
		if total.Add(total, inches); minus {
			total.Neg(total)
		}
		um, ok := steps(total, int64(unit.Inch))
		return length{um: unit.Length(um), unit: "\"", whole: true, doubt: doubt}, ok
	}
	return length{}, false
}

// parseLength reads one length; a bare number is in the unit fallback.
func (n numeral) parseLength(text, fallback string) (unit.Length, bool, error) {
	l, err := n.readLength(text)
	if err != nil {
		return 0, false, err
	}
	um, err := l.micro(fallback)
	return um, l.doubt, err
}
