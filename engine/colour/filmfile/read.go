package filmfile

import (
	"io"
	"math"
	"slices"

	"fettle/engine/colour"
	"fettle/fault"
	"fettle/fault/strictjson"
)

// File is films over a ground. Lists have one value, which stands for every
// band, or Bands values.
type File struct {
	Viewer    *colour.Viewer
	NM        []float64 // wavelengths; none where the file names none
	Bands     int
	Substrate []float64 // reflectance inside the paint
	Layers    []Layer   // from the bottom up
	Surface   colour.Surface
	Black     []float64
	White     []float64
}

// Layer is one film.
type Layer struct {
	Name   string
	Finish colour.Finish
	Film   float64 // µm dry
	Coat   float64 // µm dry of one coat; 0: not laid in coats
	K, S   []float64
}

// The largest file, and the most bands and layers.
const (
	mostBytes  = 4 << 20
	mostBands  = 5000
	mostLayers = 50
)

// Read reads a file. Faults are of kind Invalid, or TooLarge beyond 4 MB, and
// name the place.
func Read(r io.Reader) (File, error) {
	data, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return File{}, fault.Wrap(fault.Invalid, err, "read the films")
	}
	if len(data) > mostBytes {
		return File{}, fault.New(fault.TooLarge, "films of more than %d MB", mostBytes>>20)
	}
	var in form
	if err := (strictjson.Form{What: "the film file", Names: "docs/engine/film-file.md"}).Decode(data, &in); err != nil {
		return File{}, err
	}
	if in.Form != "fettle film" {
		return File{}, wrong("form", "%q is not this form", in.Form).WithHint(`begin with "form": "fettle film"`)
	}
	return in.file()
}

func wrong(where, format string, args ...any) *fault.Fault {
	return fault.New(fault.Invalid, format, args...).At(where)
}

func (in *form) file() (File, error) {
	f, err := File{}, error(nil)
	if f.Viewer, err = viewer(in.Light, in.Observer); err != nil {
		return f, err
	}
	if f.NM, err = in.Wavelengths.list(); err != nil {
		return f, err
	}
	if f.Surface, err = in.Surface.surface(); err != nil {
		return f, err
	}
	if len(in.Layers) == 0 || len(in.Layers) > mostLayers {
		return f, wrong("layers", "%d layers: 1 to %d are wanted", len(in.Layers), mostLayers)
	}
	f.Bands = max(len(f.NM), 1)
	r := reader{File: &f, open: f.NM == nil}
	r.spectra(in)
	return f, r.err
}

// lights and observers by their names in a file.
func viewer(light, observer string) (*colour.Viewer, error) {
	l, o := colour.D65(), colour.Degrees10()
	switch light {
	case "", "D65":
	case "A":
		l = colour.A()
	case "F11":
		l = colour.F11()
	default:
		return nil, wrong("light", "%q is not known", light).WithHint("D65 (daylight), A (lamp) or F11 (tube)")
	}
	switch observer {
	case "", "10":
	case "2":
		o = colour.Degrees2()
	default:
		return nil, wrong("observer", "%q is not known", observer).WithHint(`"10" or "2", degrees`)
	}
	return colour.NewViewer(l, o), nil
}

// list returns the wavelengths, none where the file names none.
func (s *steps) list() ([]float64, error) {
	if s == nil {
		return nil, nil
	}
	n := (s.To - s.From) / s.Step
	if !(s.From >= 100 && s.To <= 10000 && s.Step > 0 && n >= 1-1e-9 && n < mostBands) || math.Abs(n-math.Round(n)) > 1e-6 {
		return nil, wrong("wavelengths_nm", "from %g to %g by %g: two wavelengths or more by even steps are wanted", s.From, s.To, s.Step)
	}
	list := make([]float64, int(math.Round(n))+1)
	for i := range list {
		list[i] = s.From + float64(i)*s.Step
	}
	return list, nil
}

func (s *surfaceForm) surface() (colour.Surface, error) {
	var out colour.Surface
	if s == nil {
		return out, nil
	}
	gloss := slices.Index([]string{"excluded", "included"}, s.Gloss)
	if gloss < 0 {
		return out, wrong("surface, gloss", "%q is not known", s.Gloss).WithHint("included or excluded, as the instrument was set")
	}
	switch {
	case (s.Index == nil) == (s.K1 == nil):
		return out, wrong("surface", "n or k1 is wanted, one of them")
	case s.K1 != nil:
		out = colour.Surface{K1: *s.K1, K2: s.K2, Gloss: gloss == 1}
	case !(*s.Index >= 1 && *s.Index <= 4):
		return out, wrong("surface, n", "%g is no refractive index of paint", *s.Index)
	default:
		out = colour.Glossy(*s.Index, s.K2, gloss == 1)
	}
	return out, nil
}
