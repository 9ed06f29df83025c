package paint

import (
	"fmt"
	"math"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/unit"
)

// ask is what a mix is wanted for, as the address says it.
type ask struct {
	Product        build.Product
	Panels         []build.PanelID
	Zones          []build.ZoneID // none: those of the product on the panels
	Coats          int
	Metal, Air, RH float64 // NaN where nobody has read them
	Tin            build.TinID
	When           string // when the readings were taken, where they come from the record
	Wrong          field.Errors
}

// The bounds of readings that a person types: °C and % relative humidity.
const (
	coldest, hottest = -20, 60
	mostRH           = 100
	mostCoats        = 20
)

// ask reads what is wanted. Readings nobody typed are those of the last mix or
// coat of the day.
func (s sheet) ask(p build.Product, f *web.Form) ask {
	a := ask{Product: p, Coats: p.Coats, Tin: build.TinID(strings.TrimSpace(f.Raw("tin")))}
	for _, id := range f.All("panel") {
		if s.Build.Panel(build.PanelID(id)) == nil {
			f.Fail("panel", "is not on the vehicle: "+id)
		} else if !slices.Contains(a.Panels, build.PanelID(id)) {
			a.Panels = append(a.Panels, build.PanelID(id))
		}
	}
	for _, id := range f.All("zone") {
		if slices.Contains(p.Zones, build.ZoneID(id)) {
			a.Zones = append(a.Zones, build.ZoneID(id))
		} else {
			f.Fail("zone", "gets none of "+p.Name+": "+id)
		}
	}
	if strings.TrimSpace(f.Raw("coats")) != "" {
		a.Coats = int(f.Int("coats", 1, mostCoats))
	}
	a.Metal, a.Air, a.RH = reading(f, "metal", coldest, hottest), reading(f, "air", coldest, hottest), reading(f, "rh", 0, mostRH)
	if t := s.Build.Tin(a.Tin); a.Tin != "" && t == nil {
		f.Fail("tin", "is not on record: "+string(a.Tin))
	}
	if a.Wrong = f.Errors; len(a.Wrong) == 0 {
		s.recall(&a)
	}
	return a
}

// recall fills in readings that were taken today already.
func (s sheet) recall(a *ask) {
	if !math.IsNaN(a.Metal) {
		return
	}
	last := s.Today.At(0, 0)
	take := func(at unit.Moment, metal, air, rh float64) {
		if at >= last && at <= s.Now {
			last, a.Metal, a.Air, a.RH = at, metal, air, rh
			a.When = "read at " + at.Clock()
		}
	}
	for _, m := range s.Build.Pours {
		take(m.At, m.Metal, m.Air, m.RH)
	}
	for _, c := range s.Build.Coats {
		take(c.At, c.Metal, c.Air, c.RH)
	}
}

// cup is the temperature of the mix: that of the air, or of the metal where
// nobody has read the air.
func (a ask) cup() float64 {
	if math.IsNaN(a.Air) {
		return a.Metal
	}
	return a.Air
}

// some tells whether there is anything to mix for.
func (a ask) some() bool { return len(a.Panels)+len(a.Zones) > 0 }

// values is the ask as an address says it.
func (a ask) values() url.Values {
	v := url.Values{"coats": {strconv.Itoa(a.Coats)}}
	for _, id := range a.Panels {
		v.Add("panel", string(id))
	}
	for _, id := range a.Zones {
		v.Add("zone", string(id))
	}
	for name, text := range map[string]string{"metal": typed(a.Metal), "air": typed(a.Air), "rh": typed(a.RH), "tin": string(a.Tin)} {
		if text != "" {
			v.Set(name, text)
		}
	}
	return v
}

// mixPath is the address of the mix card of an ask.
func (s sheet) mixPath(a ask) string {
	return s.Base + "/paint/mix/" + url.PathEscape(string(a.Product.ID)) + "?" + a.values().Encode()
}

// warmer is the same ask on metal of so many °C.
func (a ask) warmer(metal float64) ask {
	a.Metal = metal
	return a
}

// code writes an ask as a printed card carries it, to be typed back in: product,
// panels, zones, coats and metal, such as "base-blue P11 P12 3x 18C".
func (a ask) code() string {
	words := []string{string(a.Product.ID)}
	for _, id := range a.Panels {
		words = append(words, string(id))
	}
	for _, id := range a.Zones {
		words = append(words, "@"+string(id))
	}
	words = append(words, strconv.Itoa(a.Coats)+"x")
	if !math.IsNaN(a.Metal) {
		words = append(words, typed(a.Metal)+"C")
	}
	return strings.Join(words, " ")
}

// decode reads the code of a printed card, in any case, into the words of an
// address. It returns what is wrong with it in words, or nothing.
func decode(b *build.Build, code string) (build.ProductID, url.Values, string) {
	words := strings.Fields(code)
	if len(words) == 0 {
		return "", nil, "is empty: type a tin's number or the code of a printed card"
	}
	product := b.Product(build.ProductID(strings.ToLower(words[0])))
	if product == nil {
		return "", nil, fmt.Sprintf("begins with %q, which is no tin, no mix and no paint", words[0])
	}
	v := url.Values{}
	for _, w := range words[1:] {
		up, low := strings.ToUpper(w), strings.ToLower(w)
		switch {
		case strings.HasPrefix(w, "@"):
			v.Add("zone", low[1:])
		case b.Panel(build.PanelID(up)) != nil:
			v.Add("panel", up)
		case strings.HasSuffix(low, "x") && isWhole(low[:len(low)-1]):
			v.Set("coats", low[:len(low)-1])
		case strings.HasSuffix(low, "c") && isMetal(pointed(low[:len(low)-1])):
			v.Set("metal", low[:len(low)-1])
		default:
			return "", nil, fmt.Sprintf("holds %q, which is no panel, no coats such as 3x and no metal such as 18C", w)
		}
	}
	return product.ID, v, ""
}

func isWhole(text string) bool {
	_, err := strconv.Atoi(text)
	return err == nil
}

func isMetal(text string) bool {
	v, err := strconv.ParseFloat(text, 64)
	return err == nil && v >= coldest && v <= hottest
}

// pointed writes a decimal comma as a point.
func pointed(text string) string { return strings.Replace(text, ",", ".", 1) }
