package look

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/internal/web/ui/flash"
	"fettle/takeoff/sprayout"
	"fettle/unit"
)

// bare writes money without the sign of the currency, as columns do.
func bare(c unit.Currency, m unit.Money) string {
	return strings.Replace(c.Format(m), c.Symbol, "", 1)
}

// minus writes a number with a true minus.
func minus(format string, v float64) string {
	text := fmt.Sprintf(format, v)
	if strings.HasPrefix(text, "-") {
		if strings.Trim(text, "-0.") == "" {
			return text[1:]
		}
		return "−" + text[1:]
	}
	return text
}

// labWords states a colour in numbers.
func labWords(s sprayout.Swatch) string {
	return "L " + minus("%.1f", s.Lab.L) + "  a " + minus("%.1f", s.Lab.A) + "  b " + minus("%.1f", s.Lab.B)
}

// sure states how far a colour may be off.
func sure(s sprayout.Swatch) string {
	if s.Within < 0.05 {
		return "error not stated"
	}
	return fmt.Sprintf("± %.1f", s.Within)
}

// onScreen states what a screen cannot show.
func onScreen(s sprayout.Swatch) string {
	if s.Off == 0 {
		return ""
	}
	return fmt.Sprintf("beyond this screen: drawn %.1f off", s.Off)
}

// over says what lies on what.
func (s scene) over(f sprayout.Face) string {
	if f.Product == "" {
		return s.colour(f.Colour)
	}
	text := s.name(f.Product)
	if f.Over != "" {
		text += " over " + s.name(f.Over)
	}
	if f.Coats > 0 {
		text += fmt.Sprintf(", %s of %s", coats(f.Coats), microns(f.Film/float64(f.Coats)))
	}
	return text
}

func coats(n int) string {
	if n == 1 {
		return "1 coat"
	}
	return fmt.Sprintf("%d coats", n)
}

func microns(um float64) string { return fmt.Sprintf("%.4g µm", um) }

// rests says what a colour rests on.
func rests(f sprayout.Face) string {
	if f.Card() == "" {
		return flash.Sentence(string(f.Basis))
	}
	return flash.Sentence(string(f.Basis) + ", card " + string(f.Card()))
}

// lineWords tells where a break line runs.
func lineWords(l build.Break) string {
	var parts []string
	if l.Z > 0 {
		parts = append(parts, fmt.Sprintf("%.0f mm up", l.Z.Mm()))
	}
	if l.Words != "" {
		parts = append(parts, l.Words)
	}
	return "Break line " + strings.Join(parts, ", ")
}
