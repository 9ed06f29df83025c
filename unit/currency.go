package unit

import "strings"

// Currency says how a build's money is written.
type Currency struct {
	Code   string `json:"code"`   // ISO 4217, such as GBP
	Symbol string `json:"symbol"` // as written before an amount, such as £
}

// Format writes an amount with a thousands comma and a true minus sign.
// Hundredths appear only where there are any.
func (c Currency) Format(m Money) string {
	sign := ""
	if m < 0 {
		sign, m = "−", -m
	}
	text := FormatDecimal(int64(m), 2, 0)
	whole, fraction, cents := strings.Cut(text, ".")
	if cents && len(fraction) == 1 {
		fraction += "0"
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if cents {
		whole += "." + fraction
	}
	return sign + c.Symbol + whole
}
