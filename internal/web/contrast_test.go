package web_test

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"testing"
)

// luminance is the relative luminance of WCAG 2.2 of a colour as #rrggbb.
func luminance(hex string) float64 {
	n, _ := strconv.ParseUint(hex[1:], 16, 32)
	lin := func(shift uint) float64 {
		c := float64(n>>shift&0xff) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(16) + 0.7152*lin(8) + 0.0722*lin(0)
}

func contrast(a, b string) float64 {
	x, y := luminance(a), luminance(b)
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}

// TestContrast_Formula compares with the value WCAG states for black on white
// and a published one for #767676 on white.
func TestContrast_Formula(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{{"#000000", "#ffffff", 21}, {"#767676", "#ffffff", 4.54}} {
		if got := contrast(c.a, c.b); math.Abs(got-c.want) > 0.01 {
			t.Errorf("%s on %s: got %.2f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}

var (
	block = regexp.MustCompile(`(?s)([^{}]+)\{([^{}]*)\}`)
	named = regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]{6});`)
)

// TestContrast holds every text colour to 7:1 on every ground it can stand on,
// and lines that carry meaning to 3:1, in every light.
func TestContrast(t *testing.T) {
	css, err := os.ReadFile("style/01-colours.css")
	if err != nil {
		t.Fatal(err)
	}
	lights := block.FindAllStringSubmatch(string(css), -1)
	if len(lights) != 4 {
		t.Fatalf("%d sets of colours, want day, bright, night and neutral", len(lights))
	}
	for _, light := range lights {
		c := map[string]string{}
		for _, m := range named.FindAllStringSubmatch(light[2], -1) {
			c[m[1]] = m[2]
		}
		for _, ground := range []string{"paper", "paper-lit", "paper-worn"} {
			for _, ink := range []string{"ink", "ink-soft"} {
				atLeast(t, light[1], c, ink, ground, 7)
			}
		}
		for _, ground := range []string{"paper", "paper-lit"} {
			for _, meaning := range []string{"moss", "ochre", "rust", "oxblood"} {
				atLeast(t, light[1], c, meaning, ground, 7)
			}
			atLeast(t, light[1], c, "pencil", ground, 3)
		}
	}
}

func atLeast(t *testing.T, light string, c map[string]string, ink, ground string, want float64) {
	t.Helper()
	if c[ink] == "" || c[ground] == "" {
		t.Errorf("%s: no colour %s or %s", light, ink, ground)
		return
	}
	if got := contrast(c[ink], c[ground]); got < want {
		t.Errorf("%s: %s on %s has %.2f:1, want %.0f:1", light, ink, ground, got, want)
	}
}
