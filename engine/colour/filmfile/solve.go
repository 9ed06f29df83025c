package filmfile

import (
	"fmt"

	"fettle/engine/colour"
)

// Result is what the films look like.
type Result struct {
	Inside []float64 // reflectance inside the paint, a band of the file each
	Seen   []float64 // as measured
	Bands  []Band    // of the file; where Look is nil
	Look   *Look     // nil where bands have no wavelengths
	Hiding []Hiding  // a layer that is laid in coats each; with Look
	Notes  []string
}

// Band is black and white in one band.
type Band struct {
	Contrast float64 // all layers over black ÷ over white, as measured
	Hiding   []Thick // a layer that is laid in coats each
}

// Thick is the film of a layer that hides black and white in one band, inside.
type Thick struct {
	Film  float64 // µm dry; 0 where none does
	Coats int
}

// Look is the films as they are seen.
type Look struct {
	XYZ      colour.XYZ
	Lab      colour.Lab
	Shown    colour.Shown
	Contrast float64 // Y of all layers over black ÷ over white
}

// Hiding is what a layer hides.
type Hiding struct {
	Layer     string
	Film      float64 // µm dry over black and white; 0: see Why
	Coats     int
	CoatsHere int // over what lies under it in the file; 0: see WhyHere
	Why       string
	WhyHere   string
}

// Solve works the films out. Flakes are refused.
func (f *File) Solve() (Result, error) {
	for _, l := range f.Layers {
		if err := l.Finish.Check(l.Name); err != nil {
			return Result{}, err
		}
	}
	s := f.stack()
	if err := s.Check(); err != nil {
		return Result{}, err
	}
	out := Result{Inside: f.over(f.Substrate)}
	for _, r := range out.Inside {
		out.Seen = append(out.Seen, f.Surface.Out(r))
	}
	if f.NM == nil && f.Bands > 1 {
		out.Bands = f.bands()
		out.Notes = []string{"no colour: the file names no wavelengths"}
		return out, nil
	}
	chart := colour.Chart{Black: f.grid(f.Black), White: f.grid(f.White), Surface: f.Surface}
	seen := s.Reflectance()
	out.Look = &Look{XYZ: f.Viewer.XYZ(seen), Lab: f.Viewer.Lab(seen), Shown: f.Viewer.Show(seen), Contrast: chart.Contrast(f.Viewer, s.Layers...)}
	for i, l := range f.Layers {
		if l.Coat > 0 {
			out.Hiding = append(out.Hiding, f.hiding(chart, s, i))
		}
	}
	out.Notes = f.notes()
	return out, nil
}

// over returns the reflectance inside, band by band.
func (f *File) over(ground []float64) []float64 {
	list := make([]float64, f.Bands)
	for b := range list {
		list[b] = pick(ground, b)
		for i := range f.Layers {
			l := &f.Layers[i]
			list[b] = colour.Film(pick(l.K, b), pick(l.S, b), l.Film, list[b])
		}
	}
	return list
}

// pick returns a value of a list of one or of all bands.
func pick(list []float64, b int) float64 {
	if len(list) == 1 {
		return list[0]
	}
	return list[b]
}

func (f *File) bands() []Band {
	black, white := f.over(f.Black), f.over(f.White)
	list := make([]Band, f.Bands)
	for b := range list {
		list[b].Contrast = f.Surface.Out(black[b]) / f.Surface.Out(white[b])
		for i := range f.Layers {
			l := &f.Layers[i]
			if l.Coat == 0 {
				continue
			}
			var one Thick
			if x, err := colour.FlatHiding(pick(l.K, b), pick(l.S, b), pick(f.Black, b), pick(f.White, b)); err == nil {
				one = Thick{x, colour.CoatsFor(x, l.Coat)}
			}
			list[b].Hiding = append(list[b].Hiding, one)
		}
	}
	return list
}

// stack puts the file on the grid.
func (f *File) stack() colour.Stack {
	s := colour.Stack{Ground: f.grid(f.Substrate), Surface: f.Surface}
	for _, l := range f.Layers {
		s.Layers = append(s.Layers, colour.Layer{Paint: colour.Paint{Name: l.Name, K: f.grid(l.K), S: f.grid(l.S), Finish: l.Finish}, Film: l.Film})
	}
	return s
}

// hiding works out what layer i hides: the chart by itself, and what lies under
// it in the file with all that lies above.
func (f *File) hiding(chart colour.Chart, s colour.Stack, i int) Hiding {
	l := f.Layers[i]
	h := Hiding{Layer: l.Name}
	x, err := chart.HidingFilm(f.Viewer, s.Layers[i].Paint)
	if err != nil {
		h.Why = err.Error()
	} else {
		h.Film, h.Coats = x, colour.CoatsFor(x, l.Coat)
	}
	job := colour.Job{
		Paint: colour.Known(s.Layers[i].Paint), Coat: l.Coat, Over: colour.Over(s.Ground, s.Layers[:i]...),
		Clear: s.Layers[i+1:], Surface: f.Surface,
	}
	if h.CoatsHere, err = job.ToHide(f.Viewer, colour.Hides{}); err != nil {
		h.WhyHere = err.Error()
	}
	return h
}

// grid puts a list on the grid of colours.
func (f *File) grid(list []float64) colour.Spectrum {
	if len(list) == 1 {
		return colour.Flat(list[0])
	}
	if f.NM == nil {
		return colour.Flat(0) // no wavelengths: no colour is asked for
	}
	var out colour.Spectrum
	from, step := f.NM[0], f.NM[1]-f.NM[0]
	for i := range out {
		at := min(max((float64(colour.Wavelength(i))-from)/step, 0), float64(len(list)-1))
		low := min(int(at), len(list)-2)
		part := at - float64(low)
		out[i] = list[low] + part*(list[low+1]-list[low])
	}
	return out
}

// notes says what was assumed of colours.
func (f *File) notes() []string {
	if f.NM == nil {
		return []string{"one band: taken as the same at every wavelength"}
	}
	first, last, step := f.NM[0], f.NM[len(f.NM)-1], f.NM[1]-f.NM[0]
	var list []string
	if step > colour.StepNM {
		list = append(list, fmt.Sprintf("colours: between wavelengths %g nm apart straight lines were drawn", step))
	}
	if first > colour.FirstNM || last < colour.LastNM {
		list = append(list, fmt.Sprintf("colours: below %g nm and above %g nm the last values were held", first, last))
	}
	return list
}
