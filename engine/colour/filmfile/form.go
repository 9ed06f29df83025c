package filmfile

import "encoding/json"

// form is a file as it is written. Spectra are a number or a list.
type form struct {
	Form        string          `json:"form"`
	Light       string          `json:"light"`
	Observer    string          `json:"observer"`
	Wavelengths *steps          `json:"wavelengths_nm"`
	Substrate   json.RawMessage `json:"substrate"`
	Layers      []layerForm     `json:"layers"`
	Surface     *surfaceForm    `json:"surface"`
	Black       json.RawMessage `json:"black"`
	White       json.RawMessage `json:"white"`
}

type steps struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
	Step float64 `json:"step"`
}

type layerForm struct {
	Name   string          `json:"name"`
	Finish string          `json:"finish"`
	Film   float64         `json:"film_um"`
	Coat   float64         `json:"coat_um"`
	Coats  int             `json:"coats"`
	K      json.RawMessage `json:"k_per_um"`
	S      json.RawMessage `json:"s_per_um"`
}

type surfaceForm struct {
	Index *float64 `json:"n"`
	K1    *float64 `json:"k1"`
	K2    float64  `json:"k2"`
	Gloss string   `json:"gloss"`
}
