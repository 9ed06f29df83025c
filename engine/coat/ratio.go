package coat

import (
	"strconv"
	"strings"

	"fettle/fault"
)

// ParseRatio reads a ratio as a tin says it: "3:1:1", "1:0.8", "2:1 + 5 %",
// with comma or point. Extra is the % on top, 0 without one. Parts must be more
// than 0.
func ParseRatio(text string) (parts []float64, extra float64, err error) {
	ratio, plus, more := strings.Cut(text, "+")
	for i, field := range strings.Split(ratio, ":") {
		v, err := number(field)
		if err != nil {
			return nil, 0, err.At("part " + strconv.Itoa(i+1))
		}
		if v == 0 {
			return nil, 0, fault.New(fault.Invalid, "a part of 0").At("part " + strconv.Itoa(i+1)).WithHint("leave out what is not in the mix")
		}
		parts = append(parts, v)
	}
	if !more {
		return parts, 0, nil
	}
	percent, ok := strings.CutSuffix(strings.TrimSpace(plus), "%")
	extra, bad := number(percent)
	if !ok || bad != nil || extra == 0 || extra > 100 {
		return nil, 0, fault.New(fault.Invalid, "%q is not a percentage on top", strings.TrimSpace(plus)).At("after +").WithHint("write it as in 2:1 + 5 %")
	}
	return parts, extra, nil
}

// number reads plain digits with a point or a comma, up to 10000.
func number(text string) (float64, *fault.Fault) {
	text = strings.TrimSpace(text)
	plain := strings.ReplaceAll(text, ",", ".")
	v, err := strconv.ParseFloat(plain, 64)
	if err != nil || strings.Trim(plain, "0123456789.") != "" || v > 1e4 {
		return 0, fault.New(fault.Invalid, "%q is not a number", text).WithHint("write a ratio like 3:1:1")
	}
	return v, nil
}
