package readin

import (
	"slices"
	"strings"
	"unicode"

	"fettle/unit"
)

// currencies maps what stands at an amount to the codes it can mean.
var currencies = [...]struct{ sign, codes string }{
	{"£", "GBP"}, {"gbp", "GBP"}, {"€", "EUR"}, {"eur", "EUR"}, {"$", "USD CAD AUD NZD"}, {"usd", "USD"},
	{"us$", "USD"}, {"kr", "DKK NOK SEK ISK"}, {"dkk", "DKK"}, {"nok", "NOK"}, {"sek", "SEK"}, {"chf", "CHF"},
	{"fr", "CHF"}, {"zł", "PLN"}, {"pln", "PLN"}, {"kč", "CZK"}, {"czk", "CZK"}, {"¥", "JPY CNY"},
	{"cad", "CAD"}, {"aud", "AUD"}, {"nzd", "NZD"}, {"isk", "ISK"},
}

const moneyHint = "write it like 385, £1,150.00 or 1.150,00 kr"

// parseMoney reads an amount in the build's currency: "385", "£1,150.00",
// "1.150,00 kr". Another currency is refused: what it is worth is not known.
func (n numeral) parseMoney(text string, c unit.Currency) (amount unit.Money, doubt bool, err error) {
	t := tidy(text)
	if len(t) > longestValue {
		return 0, false, invalid("the text is too long for an amount").WithHint(moneyHint)
	}
	t, negative := strings.CutPrefix(t, "-")
	if strings.HasPrefix(t, "(") && strings.HasSuffix(t, ")") {
		t, negative = t[1:len(t)-1], true
	}
	number, signs := cutSigns(t)
	for _, sign := range signs {
		if err := knownCurrency(sign, c); err != nil {
			return 0, false, err
		}
	}
	for _, end := range []string{",-", ".-", ",--"} {
		number = strings.TrimSuffix(number, end)
	}
	value, doubt, ok := numeral{n.mark, ",."}.parse(number)
	if !ok {
		return 0, false, invalid("%q is not an amount", text).WithHint(moneyHint)
	}
	hundredths, ok := steps(value, 100)
	if !ok {
		return 0, false, invalid("the amount is absurd")
	}
	if negative {
		hundredths = -hundredths
	}
	return unit.Money(hundredths), doubt, nil
}

// cutSigns parts an amount from the words and signs before and behind it.
func cutSigns(text string) (number string, signs []string) {
	start := strings.IndexFunc(text, numeric)
	if start < 0 {
		return "", nil
	}
	end := strings.LastIndexFunc(text, unicode.IsDigit) + 1
	if end < len(text) && strings.HasPrefix(text[end:], ",-") || strings.HasPrefix(text[max(end, 0):], ".-") {
		end += 2
	}
	if end <= start {
		return "", nil
	}
	for _, s := range []string{text[:start], text[end:]} {
		if s = strings.ToLower(strings.Trim(s, " .,-")); s != "" {
			signs = append(signs, s)
		}
	}
	return text[start:end], signs
}

func numeric(r rune) bool { return unicode.IsDigit(r) || r == '-' }

func knownCurrency(sign string, c unit.Currency) error {
	switch sign {
	case strings.ToLower(strings.TrimSpace(c.Symbol)), strings.ToLower(c.Code), "each", "ea", "net":
		return nil
	}
	for _, k := range currencies {
		if k.sign != sign {
			continue
		}
		if strings.Contains(k.codes, c.Code) {
			return nil
		}
		return invalid("the amount is in %s, the build's money is %s", strings.ToUpper(sign), c.Code).
			WithHint("write the amount in " + c.Code)
	}
	return unknownUnit(sign, moneyHint)
}

// headCurrency refuses a heading such as "Price (€)" over the amounts of a
// build that has other money.
func headCurrency(head string, c unit.Currency) error {
	head = strings.ToLower(head)
	words := strings.Fields(fold(head))
	for _, k := range currencies {
		letters := strings.IndexFunc(k.sign, unicode.IsLetter) >= 0
		if letters && !slices.Contains(words, k.sign) || !letters && !strings.Contains(head, k.sign) {
			continue
		}
		if err := knownCurrency(k.sign, c); err != nil {
			return err
		}
	}
	return nil
}
