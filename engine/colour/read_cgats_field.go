package colour

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fettle/fault"
)

// field is what one column of a CGATS table holds.
type field struct {
	kind  fieldKind
	nm    float64 // of a reflectance
	scale Scale   // of a reflectance
	title string
}

type fieldKind uint8

const (
	passedOver fieldKind = iota
	reflected            // the wavelength stands in the field's name
	wavelength           // the next field is its reflectance
	paired               // reflectance at the wavelength before
	naming               // SAMPLE_NAME, or SAMPLE_ID where there is none
	labL
	labA
	labB
)

// fieldOf tells a field by its name.
func fieldOf(name string) field {
	up := strings.ToUpper(name)
	switch up {
	case "SAMPLE_NAME", "SAMPLENAME", "SAMPLE_ID", "SAMPLEID":
		return field{kind: naming, title: up}
	case "LAB_L":
		return field{kind: labL}
	case "LAB_A":
		return field{kind: labA}
	case "LAB_B":
		return field{kind: labB}
	case "SPECTRAL_NM":
		return field{kind: wavelength}
	case "SPECTRAL_PCT":
		return field{kind: paired, scale: Percent}
	case "SPECTRAL_DEC":
		return field{kind: paired, scale: Fraction}
	}
	return reflectedOf(up)
}

// reflectedOf reads names such as SPECTRAL_NM_380, SPECTRAL_PCT380, NM380,
// R_380 and 380NM.
func reflectedOf(up string) field {
	f := field{kind: reflected}
	rest, spectral := strings.CutPrefix(up, "SPECTRAL_")
	for _, p := range []struct {
		prefix string
		scale  Scale
	}{{"NM", Guess}, {"PCT", Percent}, {"DEC", Fraction}, {"R", Guess}} {
		if t, ok := strings.CutPrefix(rest, p.prefix); ok {
			rest, f.scale, spectral = t, p.scale, true
			break
		}
	}
	bare, suffix := strings.CutSuffix(strings.TrimPrefix(rest, "_"), "NM")
	n, err := strconv.Atoi(bare)
	if err != nil || n < 200 || n > 2500 || !spectral && !suffix {
		return field{}
	}
	f.nm = float64(n)
	return f
}

// curve makes a reading of the words of one sample.
func (p *cgats) curve(row []word) (curve, error) {
	c := curve{name: p.nameOf(row)}
	var lab Lab
	var labs int
	at := 0.0 // the wavelength of a pair
	for i, w := range row {
		f := p.fields[i]
		if f.kind == passedOver || f.kind == naming {
			continue
		}
		v, bad := number(w.text)
		if bad != nil {
			if f.kind == reflected {
				bad = bad.At(nm(f.nm))
			}
			return c, bad.At(w.place())
		}
		switch f.kind {
		case labL:
			lab.L, labs = v, labs+1
		case labA:
			lab.A, labs = v, labs+1
		case labB:
			lab.B, labs = v, labs+1
		case wavelength:
			at = v
		case reflected:
			c.points, c.scale = append(c.points, point{f.nm, v, w.line}), f.scale
		case paired:
			c.points, c.scale = append(c.points, point{at, v, w.line}), f.scale
		}
	}
	if labs == 3 {
		c.lab, c.notes = &lab, append(c.notes, p.relative())
	}
	if len(c.points) == 0 && c.lab == nil {
		return c, fault.New(fault.Invalid, "the table has neither a spectrum nor Lab").At(row[0].place()).
			WithHint("export spectral reflectance (SPECTRAL_NM380 …) or LAB_L LAB_A LAB_B")
	}
	slices.SortStableFunc(c.points, func(a, b point) int { return cmp.Compare(a.nm, b.nm) })
	return c, nil
}

// relative says what the file's Lab is relative to.
func (p *cgats) relative() string {
	if len(p.said) == 0 {
		return "the file does not say under which light and observer its Lab was read"
	}
	return "Lab was read under " + strings.Join(p.said, "; ")
}

// nameOf returns the sample's name, else its number in the file.
func (p *cgats) nameOf(row []word) string {
	name := ""
	for i, f := range p.fields {
		if f.kind == naming && (name == "" || strings.HasSuffix(f.title, "NAME")) {
			name = row[i].text
		}
	}
	if name == "" {
		name = fmt.Sprintf("sample %d", len(p.list)+1)
	}
	return name
}
