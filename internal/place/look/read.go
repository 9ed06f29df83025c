package look

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"fettle/build"
	"fettle/fault"
)

// The readings that no paint gives.
const (
	leastRead = -0.005 // down to here it is noise, taken as 0
	mostRead  = 1.2
)

// reading reads what was typed or pasted for one reading: a screen colour such
// as #1F4A55, three numbers of Lab, or 36 reflectances from 380 to 730 nm by 10,
// in parts of 1 or in percent. A number after ± is how far it may be off.
func reading(text string) (build.Reading, error) {
	var r build.Reading
	text = strings.TrimSpace(text)
	if text == "" {
		return r, nil
	}
	text, error, found := strings.Cut(text, "±")
	if found {
		v, err := number(strings.TrimSpace(error))
		if err != nil || v < 0 || v > 50 {
			return r, fault.New(fault.Invalid, "has no error such as ± 2.5")
		}
		r.Within = v
	}
	text = strings.TrimSpace(text)
	if strings.HasPrefix(text, "#") {
		if len(text) != 7 || strings.Trim(text[1:], "0123456789abcdefABCDEF") != "" {
			return r, fault.New(fault.Invalid, "is no colour like #1F4A55")
		}
		r.RGB = text
		return r, nil
	}
	values, err := numbersIn(text)
	if err != nil {
		return r, err
	}
	switch len(values) {
	case 3:
		r.Lab = values
		return r, labFault(values)
	case build.Bands:
		r.Spectrum, err = reflectances(values)
		return r, err
	}
	return r, fault.New(fault.Invalid, "has %d numbers: three of Lab, 36 of a spectrum (380 to 730 nm by 10), or a colour like #1F4A55", len(values))
}

func labFault(v []float64) error {
	if v[0] < 0 || v[0] > 100 || math.Abs(v[1]) > 150 || math.Abs(v[2]) > 150 {
		return fault.New(fault.Invalid, "is no Lab: L is 0 to 100, a and b are within 150")
	}
	return nil
}

// numbersIn parts numbers by blanks, semicolons or tabs, else by commas; a comma
// is else a decimal point.
func numbersIn(text string) ([]float64, error) {
	blank := func(r rune) bool { return unicode.IsSpace(r) || r == ';' }
	words := strings.FieldsFunc(text, blank)
	if len(words) == 1 || strings.Contains(text, ", ") {
		words = strings.FieldsFunc(text, func(r rune) bool { return blank(r) || r == ',' })
	}
	values := make([]float64, len(words))
	for i, w := range words {
		v, err := number(w)
		if err != nil {
			return nil, fault.New(fault.Invalid, "has %q%s: a number is wanted, no gaps", w, at(i, len(words)))
		}
		values[i] = v
	}
	return values, nil
}

func number(word string) (float64, error) {
	v, err := strconv.ParseFloat(strings.Replace(strings.Replace(word, ",", ".", 1), "−", "-", 1), 64)
	if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
		return 0, fault.New(fault.Invalid, "is no number")
	}
	return v, err
}

// reflectances turns percent into parts of 1 and refuses what no paint gives.
func reflectances(values []float64) ([]float64, error) {
	scale := 1.0
	for _, v := range values {
		if v > 2 {
			scale = 0.01
		}
	}
	out := make([]float64, len(values))
	for i, v := range values {
		v *= scale
		switch {
		case v < leastRead:
			return nil, fault.New(fault.Invalid, "is negative%s: %.3f", at(i, len(values)), v)
		case v > mostRead:
			return nil, fault.New(fault.Invalid, "is above 1.2%s: %.3f; paint gives back no more light than falls on it", at(i, len(values)), v)
		}
		out[i] = math.Round(max(v, 0)*1e4) / 1e4
	}
	return out, nil
}

func at(i, n int) string {
	if n < 10 {
		return ""
	}
	return fmt.Sprintf(" at %d nm", 380+10*i)
}

// typedAgain writes a reading as its field takes it.
func typedAgain(r build.Reading) string {
	text := r.RGB
	for _, list := range [][]float64{r.Lab, r.Spectrum} {
		for _, v := range list {
			text += " " + strconv.FormatFloat(v, 'f', -1, 64)
		}
	}
	if r.Within > 0 {
		text += fmt.Sprintf(" ± %.1f", r.Within)
	}
	return strings.TrimSpace(text)
}

// bright is how light a reading is, 0 to 1, near enough to tell two apart; false
// where there is none.
func bright(r build.Reading) (float64, bool) {
	switch {
	case len(r.Spectrum) > 0:
		sum := 0.0
		for _, v := range r.Spectrum[12:26] { // 500 to 630 nm, where the eye sees best
			sum += v
		}
		return sum / 14, true
	case len(r.Lab) == 3:
		return math.Pow((r.Lab[0]+16)/116, 3), true
	case r.RGB != "":
		v, err := strconv.ParseUint(r.RGB[3:5], 16, 8)
		return math.Pow(float64(v)/255, 2.2), err == nil
	}
	return 0, false
}
