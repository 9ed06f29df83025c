package browser

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// mayNot is the question of the cold afternoon.
const mayNot = "/paint/may-spray?product=clear&air=17&rh=72&metal=13.5&at=2027-01-06T15:30&laid=2027-01-05T16:10"

// facesDay is a day on which base and clear go on all faces.
const facesDay = "/paint/day?fill=base"

// TestPaintAccessibility goes through the pages of Paint and Look on a day when
// they are full.
func TestPaintAccessibility(t *testing.T) {
	s, _ := january(t, sealed())
	p := tablet(t, s.url)
	p.bare()
	p.walked("/b/pedlar", []stop{
		{"paint", "/paint"}, {"mix", doorsMix}, {"mix-empty", "/paint/mix/clear"}, {"mix-stop", "/paint/mix/sealer-black?panel=P01&metal=14"}, {"mix-paper", doorsMix + "&as=paper"},
		{"pour", "/paint/pour/M03"}, {"tin-of-paint", "/paint/tin/N08"}, {"tins", "/paint/tins"}, {"labels", "/paint/tins/labels"}, {"limits", "/paint/limits"}, {"product", "/paint/product/clear"}, {"product-new", "/paint/new"},
		{"may-not", mayNot}, {"clocks-open", "/paint/clocks"}, {"faces-day", facesDay}, {"records-full", "/paint/records"},
		{"look", "/look"}, {"look-new", "/look/new"}, {"look-over-black", "/look/paint/base-limewash?over=sealer-black"}, {"look-flop", "/look/paint/base-slackwater"}, {"colour", "/look/colour"}, {"card", "/look/card"},
	})
}

var (
	rgb   = regexp.MustCompile(`^rgba?\((\d+), (\d+), (\d+)`)
	lab   = regexp.MustCompile(`L \d+\.\d +a −?\d+\.\d +b −?\d+\.\d`)
	hex   = regexp.MustCompile(`#[0-9a-f]{6}`)
	lucid = `[...document.querySelectorAll("html, body, .sheet, .sheet-main, main, .look-three, .look-one, .look-zones li, .look-swatch, .look-strip, .vehicle-svg")]
		.flatMap((e) => { const all = []; for (let n = e; n; n = n.parentElement) { const c = getComputedStyle(n); if (!/^rgba.*, 0\)$/.test(c.backgroundColor)) all.push(c.backgroundColor); if (c.backgroundImage !== "none") all.push("a picture " + c.backgroundImage); } return all; })`
)

// TestColourPages: what lies round a colour is neutral grey in every light, and
// its numbers stand beside it as text.
func TestColourPages(t *testing.T) {
	s, _ := january(t)
	p := tablet(t, s.url)
	for _, path := range []string{"/look", "/look?view=left", "/look/paint/base-limewash?over=sealer-black", "/look/paint/base-slackwater", "/look/new", "/look/card"} {
		p.open("/b/pedlar" + path)
		for _, light := range []string{"day", "bright", "night"} {
			p.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf("void (document.documentElement.dataset.theme = %q)", light)))
			grounds := eval[[]string](p, lucid)
			if len(grounds) == 0 {
				t.Errorf("%s by %s light has no ground", path, light)
			}
			slices.Sort(grounds)
			for _, ground := range slices.Compact(grounds) {
				if m := rgb.FindStringSubmatch(ground); m == nil || m[1] != m[2] || m[2] != m[3] {
					t.Errorf("%s by %s light: a ground is %s, want neutral grey", path, light, ground)
				}
			}
		}
		if strings.HasSuffix(path, "new") || strings.HasSuffix(path, "card") {
			continue
		}
		text := p.text("main")
		if len(lab.FindAllString(text, -1)) < 2 || len(hex.FindAllString(text, -1)) < 2 || !strings.Contains(text, "±") {
			t.Errorf("%s: Lab, hex and their error do not stand there as text: %.500s", path, text)
		}
		if !strings.Contains(text, "CIEDE2000") && !strings.Contains(text, "Nothing is worked out coat by coat") {
			t.Errorf("%s: no difference stands there as CIEDE2000: %.500s", path, text)
		}
		bare := eval[[]string](p, `[...document.querySelectorAll(".look-swatch, .look-strip")].filter((e) => e.querySelector("rect[fill^='#']") && !/#[0-9a-f]{6}/.test(e.closest("figure, li, tr")?.innerText ?? "")).map((e) => e.outerHTML.slice(0, 90))`)
		if len(bare) > 0 {
			t.Errorf("%s: %d colours without their numbers beside them, such as %s", path, len(bare), bare[0])
		}
	}
	p.quiet()
}

// TestPaintOnPaper prints the card and the day's sheet that hang in the booth,
// and types the card's code back in.
func TestPaintOnPaper(t *testing.T) {
	s, _ := january(t, sealed())
	p := tablet(t, s.url)
	p.open("/b/pedlar" + facesDay)
	day := p.where()
	code := "base-slackwater P11 P12 P58 P59 3x 18C"
	for _, c := range []struct {
		name, path string
		most       int // sheets of A4
		holds      []string
	}{
		{"mix", "/b/pedlar" + doorsMix + "&as=paper", 1, []string{code, "1.72 m²", "0.37 l through the gun + 0.20 l in cup and hose = 0.57 l", "Slackwater base", "316", "Reducer BR", "253", "536", "N08", "Left in the cup", "air-fed breathing", "maker's sheet"}},
		{"mix-clear", "/b/pedlar/paint/mix/clear?panel=P11&panel=P12&panel=P58&panel=P59&coats=3&metal=18&as=paper", 1, []string{"clear P11 P12 P58 P59 3x 18C", "Hardener CL-H", "air-fed breathing"}},
		{"faces-day", day + "&as=paper", 2, []string{"Spray-day sheet, Thu 7 Jan 2027", "base-slackwater @slackwater", "clear @", "Initials", "air-fed breathing", "Code to type back"}},
	} {
		sheets := p.paper(c.name, c.path)
		if len(sheets) > c.most {
			t.Errorf("%s: %d sheets of A4, want at most %d", c.name, len(sheets), c.most)
		}
		text := strings.Join(sheets, " ")
		for _, want := range append(c.holds, "Larkmere Pedlar 10-cwt van", "Wed 6 Jan 2027", "sheet 1 of") {
			if !strings.Contains(text, want) {
				t.Errorf("%s on paper: %q is missing; it says %.3000s", c.name, want, text)
			}
		}
	}
	p.open("/b/pedlar/paint")
	p.write("#code", strings.ToLower(code))
	p.follow(p.labelled("button", "Open"))
	p.cardSays()
	p.quiet()
}
