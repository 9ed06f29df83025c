package loom

import (
	"slices"
	"strings"

	"fettle/fault"
)

// Hue is one colour in both codes.
type Hue struct {
	Name string `json:"name"`
	IEC  string `json:"iec_60757,omitempty"`
	AU7  string `json:"bs_au7,omitempty"`
}

// Hues returns the colours of wires. Light green stands in the British letters
// alone, turquoise in the international ones.
func Hues() []Hue {
	return []Hue{
		{"black", "BK", "B"}, {"brown", "BN", "N"}, {"red", "RD", "R"}, {"orange", "OG", "O"}, {"yellow", "YE", "Y"}, {"green", "GN", "G"},
		{"blue", "BU", "U"}, {"violet", "VT", "P"}, {"slate", "GY", "S"}, {"white", "WH", "W"}, {"pink", "PK", "K"}, {"turquoise", "TQ", ""}, {"light green", "", "LG"},
	}
}

// Colour is a base colour and tracers.
type Colour []Hue

// ReadColour reads letters of BS-AU7, joined by / or not ("U/R", "UR"), or of
// IEC 60757 ("BURD"). BU alone is blue by the international code; black with a
// blue tracer is written B/U.
func ReadColour(text string) (Colour, error) {
	letters := strings.ToUpper(strings.TrimSpace(text))
	if c, ok := pick(letters, 2, func(h Hue) string { return h.IEC }); ok {
		return c, nil
	}
	var whole Colour
	for _, part := range strings.Split(letters, "/") {
		c, ok := pick(part, 1, func(h Hue) string { return h.AU7 })
		if !ok {
			return nil, fault.New(fault.Invalid, "%q is no colour of a wire", text).WithHint("letters of BS-AU7 such as U/R, or of IEC 60757 such as BURD")
		}
		whole = append(whole, c...)
	}
	return whole, nil
}

// pick reads letters of one code; step is how many a colour has at most.
func pick(text string, step int, of func(Hue) string) (Colour, bool) {
	var c Colour
	for text != "" {
		found := false
		for _, n := range []int{2, 1} {
			if n < step || n > len(text) || found {
				continue
			}
			if i := slices.IndexFunc(Hues(), func(h Hue) bool { return of(h) == text[:n] }); i >= 0 {
				c, text, found = append(c, Hues()[i]), text[n:], true
			}
		}
		if !found {
			return nil, false
		}
	}
	return c, len(c) > 0
}

// AU7 writes the colour in British letters; false where they lack one.
func (c Colour) AU7() (string, bool) { return c.write("/", func(h Hue) string { return h.AU7 }) }

// IEC writes the colour in international letters; false where they lack one.
func (c Colour) IEC() (string, bool) { return c.write("", func(h Hue) string { return h.IEC }) }

// String names the colour in words.
func (c Colour) String() string {
	text, _ := c.write("/", func(h Hue) string { return h.Name })
	return text
}

func (c Colour) write(between string, of func(Hue) string) (string, bool) {
	list := make([]string, len(c))
	for i, h := range c {
		if list[i] = of(h); list[i] == "" {
			return "", false
		}
	}
	return strings.Join(list, between), true
}

// CircuitColours returns what base colours mean in the British code.
func CircuitColours() map[string]string {
	return map[string]string{
		"N": "main battery feed, unfused, always live", "P": "fused, always live: horn, inside lamps", "W": "switched by ignition, unfused", "G": "switched by ignition, fused",
		"R": "side and tail lamps", "U": "headlamp feed to the dip switch", "U/W": "main beam", "U/R": "dipped beam", "B": "earth",
		"N/W": "ammeter or alternator main", "N/Y": "charge telltale", "N/G": "dynamo field", "G/W": "right indicators", "G/R": "left indicators",
	}
}
