package filmfile

import (
	"encoding/json"
	"fmt"

	"fettle/engine/colour"
	"fettle/fault"
)

// reader keeps the first fault and goes on.
type reader struct {
	*File
	open bool // no wavelengths are named: the first list says how many bands there are
	err  error
}

func (r *reader) keep(err error) {
	if r.err == nil && err != nil {
		r.err = err
	}
}

func (r *reader) spectra(in *form) {
	r.Substrate = r.values("substrate", in.Substrate, 1)
	r.Black, r.White = []float64{0}, []float64{0.8}
	if in.Black != nil {
		r.Black = r.values("black", in.Black, 1)
	}
	if in.White != nil {
		r.White = r.values("white", in.White, 1)
	}
	for i := range in.Layers {
		r.Layers = append(r.Layers, r.layer(&in.Layers[i], i))
	}
}

func (r *reader) layer(in *layerForm, i int) Layer {
	where := fmt.Sprintf("layer %d", i+1)
	if in.Name != "" {
		where += " " + in.Name
	}
	l := Layer{Name: in.Name, Film: in.Film, Coat: in.Coat}
	if l.Name == "" {
		l.Name = where
	}
	switch {
	case in.Film != 0 && in.Coats != 0:
		r.keep(wrong(where, "film_um and coats are both said: leave one out"))
	case in.Coats < 0 || in.Coats > 1000:
		r.keep(wrong(where, "%d coats", in.Coats))
	case in.Coats > 0:
		l.Film = in.Coat * float64(in.Coats)
	}
	if !(l.Film > 0 && l.Film <= 1e5) || l.Coat < 0 || l.Coat > 1e5 {
		r.keep(wrong(where, "a film of %g µm, coats of %g µm: more than 0 is wanted", l.Film, l.Coat).
			WithHint("say film_um, or coat_um and coats"))
	}
	l.Finish = r.finish(in.Finish, where)
	l.K = r.values(where+", k_per_um", in.K, 1e3)
	l.S = r.values(where+", s_per_um", in.S, 1e3)
	return l
}

func (r *reader) finish(name, where string) colour.Finish {
	for _, f := range [...]colour.Finish{colour.Solid, colour.Metallic, colour.Pearl} {
		if name == f.String() {
			return f
		}
	}
	if name != "" {
		r.keep(wrong(where+", finish", "%q is not known", name).WithHint("solid, metallic or pearl"))
	}
	return colour.Solid
}

// values reads a number or a list of them, each from 0 to most.
func (r *reader) values(where string, raw json.RawMessage, most float64) []float64 {
	list, err := numbers(raw)
	if err != nil {
		r.keep(err.At(where))
		return []float64{0}
	}
	for i, v := range list {
		if !(v >= 0 && v <= most) {
			r.keep(wrong(r.place(where, len(list), i), "%g: 0 to %g is wanted", v, most))
		}
	}
	if len(list) == 1 {
		return list
	}
	if r.open && len(list) <= mostBands {
		r.Bands, r.open = len(list), false
	}
	if len(list) != r.Bands {
		r.keep(wrong(where, "%d values for %d bands", len(list), r.Bands).WithHint("one value, or one for every band"))
		return []float64{0}
	}
	return list
}

// place names a value of a list, by its wavelength where there are any.
func (r *reader) place(where string, n, i int) string {
	switch {
	case n == 1:
		return where
	case i < len(r.NM):
		return fmt.Sprintf("%s, %g nm", where, r.NM[i])
	}
	return fmt.Sprintf("%s, value %d", where, i+1)
}

// numbers reads a number or a list without gaps.
func numbers(raw json.RawMessage) ([]float64, *fault.Fault) {
	if len(raw) == 0 {
		return nil, fault.New(fault.Invalid, "nothing is said").WithHint("a number, or a list with a number for every band")
	}
	var list []*float64
	if err := json.Unmarshal(raw, &list); err != nil || list == nil {
		var one *float64
		if err := json.Unmarshal(raw, &one); err != nil || one == nil {
			return nil, fault.New(fault.Invalid, "%.40s does not fit here", raw).WithHint("a number, or a list with a number for every band, is wanted")
		}
		list = []*float64{one}
	}
	out := make([]float64, len(list))
	for i, v := range list {
		if v == nil {
			return nil, fault.New(fault.Invalid, "value %d is missing", i+1).WithHint("a spectrum without gaps is wanted")
		}
		out[i] = *v
	}
	if len(out) == 0 {
		return nil, fault.New(fault.Invalid, "the list is empty")
	}
	return out, nil
}
