package cli

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"fettle/engine/colour/filmfile"
	"fettle/fault"
)

// solveFilmCmd works out how paint films look.
type solveFilmCmd struct {
	Files []string `arg:"" help:"Files of films over a ground (docs/engine/film-file.md)." type:"existingfile"`
	JSON  bool     `name:"json" help:"Print one JSON document."`
}

// filmSolved is what solve film prints of a file.
type filmSolved struct {
	File     string       `json:"file"`
	Viewer   string       `json:"viewer,omitempty"`
	NM       []float64    `json:"wavelengths_nm,omitempty"`
	Seen     []float64    `json:"reflectance"`        // as measured, a band each
	Inside   []float64    `json:"reflectance_inside"` // without the surface
	Look     *filmLook    `json:"colour,omitempty"`
	Contrast *float64     `json:"contrast_ratio,omitempty"` // Y over black ÷ over white
	Hiding   []filmHiding `json:"hiding,omitempty"`
	Bands    []filmBand   `json:"bands,omitempty"` // where the file names no wavelengths
	Notes    []string     `json:"notes"`
}

type filmLook struct {
	XYZ        [3]float64 `json:"xyz"`
	Lab        [3]float64 `json:"lab"`
	SRGB       string     `json:"srgb"`
	Mapped     bool       `json:"srgb_mapped"`     // no screen shows it
	Difference float64    `json:"srgb_difference"` // CIEDE2000 by which it is drawn in
}

type filmHiding struct {
	Layer     string  `json:"layer"`
	Film      float64 `json:"film_um,omitempty"`
	Coats     int     `json:"coats,omitempty"`
	CoatsHere int     `json:"coats_here,omitempty"`
	Why       string  `json:"why,omitempty"`
	WhyHere   string  `json:"why_here,omitempty"`
}

type filmBand struct {
	Contrast *float64    `json:"contrast_ratio"` // null where white is black too
	Hiding   []filmThick `json:"hiding,omitempty"`
}

type filmThick struct {
	Film  float64 `json:"film_um"` // 0: no film hides
	Coats int     `json:"coats"`
}

// Run works every file out.
func (c *solveFilmCmd) Run(ctx context.Context, s streams) error {
	list := make([]filmSolved, 0, len(c.Files))
	for _, path := range c.Files {
		one, err := solveFilm(path)
		if err != nil {
			return within(err, path)
		}
		list = append(list, one)
		if !c.JSON {
			one.print(s.out)
		}
		if err := ctx.Err(); err != nil {
			return err
		}
	}
	if c.JSON {
		return printJSON(s, list)
	}
	return nil
}

func solveFilm(path string) (filmSolved, error) {
	in, err := os.Open(path)
	if err != nil {
		return filmSolved{}, fault.New(fault.NotFound, "cannot be opened: %v", err)
	}
	defer in.Close()
	f, err := filmfile.Read(in)
	if err != nil {
		return filmSolved{}, err
	}
	r, err := f.Solve()
	if err != nil {
		return filmSolved{}, err
	}
	one := filmSolved{File: filepath.Base(path), NM: f.NM, Seen: r.Seen, Inside: r.Inside, Notes: append([]string{}, r.Notes...)}
	if l := r.Look; l != nil {
		one.Viewer, one.Contrast = f.Viewer.Name, numberOf(l.Contrast)
		one.Look = &filmLook{
			XYZ: [3]float64{l.XYZ.X, l.XYZ.Y, l.XYZ.Z}, Lab: [3]float64{l.Lab.L, l.Lab.A, l.Lab.B},
			SRGB: l.Shown.Colour.Hex(), Mapped: l.Shown.Mapped, Difference: l.Shown.Difference,
		}
	}
	for _, h := range r.Hiding {
		one.Hiding = append(one.Hiding, filmHiding(h))
	}
	for _, b := range r.Bands {
		band := filmBand{Contrast: numberOf(b.Contrast)}
		for _, h := range b.Hiding {
			band.Hiding = append(band.Hiding, filmThick(h))
		}
		one.Bands = append(one.Bands, band)
	}
	return one, nil
}

// numberOf leaves out what is no number.
func numberOf(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

func (one filmSolved) print(w io.Writer) {
	fmt.Fprintf(w, "%s\treflectance\t%s\n", one.File, one.values())
	if l := one.Look; l != nil {
		fmt.Fprintf(w, "\tcolour\tX %.3f Y %.3f Z %.3f\tL %.2f a %.2f b %.2f\t%s\t%s\n", l.XYZ[0], l.XYZ[1], l.XYZ[2], l.Lab[0], l.Lab[1], l.Lab[2], one.Viewer, l.screen())
		if one.Contrast != nil {
			fmt.Fprintf(w, "\tcontrast\t%.4f over black and white\n", *one.Contrast)
		}
	}
	for _, h := range one.Hiding {
		fmt.Fprintf(w, "\thiding\t%s\tblack and white: %s\twhat lies under it: %s\n", h.Layer, coats(h.Film, h.Coats, h.Why), coats(0, h.CoatsHere, h.WhyHere))
	}
	for i, b := range one.Bands {
		fmt.Fprintf(w, "\tband %d\t%s\n", i+1, b.text())
	}
	for _, n := range one.Notes {
		fmt.Fprintf(w, "\tnote\t%s\n", n)
	}
}

func (one filmSolved) values() string {
	words := make([]string, len(one.Seen))
	for i, v := range one.Seen {
		words[i] = fmt.Sprintf("%.4f", v)
		if one.NM != nil {
			words[i] = fmt.Sprintf("%g nm %.4f", one.NM[i], v)
		}
	}
	return strings.Join(words, ", ")
}

func (l *filmLook) screen() string {
	if l.Mapped {
		return fmt.Sprintf("%s, drawn in by %.1f: no screen shows it", l.SRGB, l.Difference)
	}
	return l.SRGB
}

// coats says what hides, or why nothing does.
func coats(film float64, n int, why string) string {
	if n == 0 {
		return why
	}
	text := fmt.Sprintf("%d coats", n)
	if n == 1 {
		text = "1 coat"
	}
	if film > 0 {
		text += fmt.Sprintf(", %.1f µm", film)
	}
	return text
}

func (b filmBand) text() string {
	text := "contrast none: white is black too"
	if b.Contrast != nil {
		text = fmt.Sprintf("contrast %.4f", *b.Contrast)
	}
	for _, h := range b.Hiding {
		text += "\t" + coats(h.Film, h.Coats, "no film hides")
	}
	return text
}
