package paint

import (
	"math"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	stage "fettle/stage/paint"
)

// extraWords say what a percentage on top is counted on.
var extraWords = map[build.ExtraOf]string{build.OfAll: "of all parts", build.OfPaint: "of the paint"}

// ratio writes a mix as a tin says it, with what "+ x %" is counted on.
func ratio(p build.Product) string {
	text := ratioJoined(p, " : ")
	if text == "" {
		return "ready"
	}
	if p.Extra.Percent > 0 {
		text += " " + extraWords[p.Extra.Of]
	}
	return text
}

// ratioTyped writes a mix as it is typed.
func ratioTyped(p build.Product) string { return ratioJoined(p, ":") }

func ratioJoined(p build.Product, between string) string {
	var words []string
	mix, extra := p.Mix, ""
	if p.Extra.Percent > 0 {
		mix, extra = mix[:len(mix)-1], " + "+plainNumber(p.Extra.Percent)+" %"
	}
	for _, m := range mix {
		if m > 0 {
			words = append(words, plainNumber(m))
		}
	}
	return strings.Join(words, between) + extra
}

// extraWorked says what "+ x %" comes to in parts, or nothing.
func extraWorked(p build.Product) string {
	if p.Extra.Percent == 0 {
		return ""
	}
	last := len(p.Mix) - 1
	on := plainNumber(p.Mix[0])
	if p.Extra.Of == build.OfAll {
		on = "(" + strings.ReplaceAll(ratioJoined(build.Product{Mix: p.Mix[:last]}, "+"), "+", " + ") + ")"
	}
	return plainNumber(p.Extra.Percent) + " % " + extraWords[p.Extra.Of] + ": " + plainNumber(p.Extra.Percent) + " % × " + on + " = " + plainNumber(p.Mix[last]) + " parts"
}

// readRatio reads a ratio that was typed anew into the parts of the rows that
// are used, or of the first rows where none is; nil where none was typed, and
// the rows say their parts themselves.
func readRatio(f *web.Form, p *build.Product, old build.Product) map[int]float64 {
	text, of := strings.TrimSpace(f.Raw("ratio")), build.ExtraOf(f.Raw("extra_of"))
	if text == "" || text == ratioTyped(old) && of == old.Extra.Of {
		return nil
	}
	mix, extra, err := stage.Ratio(text, of)
	if err != nil {
		f.Fail("ratio", "cannot be: "+err.Error()+"; "+fault.HintOf(err))
		return nil
	}
	rows := rowsFor(f, len(mix))
	if rows == nil {
		f.Fail("ratio", "has "+plural(len(mix), "one part", plainNumber(float64(len(mix)))+" parts")+", and the rows below have not: name as many rows as it has, or none")
		return nil
	}
	p.Extra = extra
	parts := map[int]float64{}
	for i, row := range rows {
		parts[row] = mix[i]
	}
	return parts
}

// rowsFor are the rows that n parts go to: those used, or the first where none
// is; nil where their number is another.
func rowsFor(f *web.Form, n int) []int {
	var used []int
	for i := range mixParts {
		if rowUsed(f, i) {
			used = append(used, i)
		}
	}
	if len(used) == 0 {
		for i := range min(n, mixParts) {
			used = append(used, i)
		}
	}
	if len(used) != n {
		return nil
	}
	return used
}

func rowUsed(f *web.Form, i int) bool {
	return f.Raw(part(i, "parts")) != "" || f.Raw(part(i, "name")) != ""
}

// keepExtra keeps "+ x %" as it was where the parts still come to it.
func keepExtra(p *build.Product, old build.Product, typed map[int]float64) {
	last := len(p.Mix) - 1
	if typed == nil && old.Extra.Percent > 0 && last > 0 && math.Abs(old.Extra.Parts(p.Mix[:last])-p.Mix[last]) < 1e-3 {
		p.Extra = old.Extra
	}
}

// readViscosity reads the cup that the seconds are of.
func readViscosity(f *web.Form, p *build.Product) {
	p.Viscosity.Cup = f.Raw("cup")
	v := p.Viscosity
	switch {
	case f.Errors.Of("cup_s") != "" || v == (build.Viscosity{}):
	case v.Cup == "":
		f.Fail("cup", "is not chosen: which cup runs empty in "+plainNumber(v.Seconds)+" s?")
	case v.Seconds == 0:
		f.Fail("cup_s", "is none: in how many seconds does the cup run empty?")
	default:
		if _, err := stage.SameInCups(v.Cup, v.Seconds); err != nil && stage.KnownCup(v.Cup) {
			f.Fail("cup_s", "cannot be: "+err.Error())
		}
	}
}
