package filmfile

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fettle/engine/colour"
)

func solved(t *testing.T, name string) (File, Result) {
	t.Helper()
	in, err := os.Open(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	f, err := Read(in)
	if err != nil {
		t.Fatal(err)
	}
	r, err := f.Solve()
	if err != nil {
		t.Fatal(err)
	}
	return f, r
}

func TestBands(t *testing.T) {
	_, r := solved(t, "bands.json")
	for i, want := range []float64{0.378564170, 0.390528474, 0.523347465} { // closed form, and integration
		if math.Abs(r.Seen[i]-want) > 1e-9 {
			t.Errorf("band %d: %.10f, want %.9f", i+1, r.Seen[i], want)
		}
	}
	if x := r.Bands[2].Hiding[0]; math.Abs(x.Film/63.1-1) > 0.005 || x.Coats != 5 {
		t.Errorf("hides with %+v, want 63.1 µm in 5 coats", x)
	}
	if r.Look != nil || len(r.Notes) != 1 {
		t.Errorf("a colour without wavelengths: %+v, %v", r.Look, r.Notes)
	}
}

func TestLimewash(t *testing.T) {
	f, r := solved(t, "limewash.json")
	if len(r.Seen) != 16 || len(r.Notes) != 2 || len(r.Hiding) != 1 {
		t.Fatalf("%d bands, notes %q, hiding %+v", len(r.Seen), r.Notes, r.Hiding)
	}
	// Where file and grid share a wavelength they agree: 560 nm.
	s := f.stack()
	if grid := s.Reflectance(); math.Abs(grid[18]-r.Seen[8]) > 1e-12 {
		t.Errorf("560 nm: %g on the grid, %g in the file", grid[18], r.Seen[8])
	}
	h := r.Hiding[0]
	over := colour.CoatsFor(h.Film, 9)
	if h.Coats != over || !(h.CoatsHere < h.Coats) || h.Why != "" || h.WhyHere != "" {
		t.Errorf("%+v", h)
	}
}

func TestOneBandIsFlat(t *testing.T) {
	f, err := Read(strings.NewReader(`{"form": "fettle film", "substrate": 0, "layers": [{"coat_um": 10, "coats": 2, "k_per_um": 0.05, "s_per_um": [0.05]}]}`))
	if err != nil {
		t.Fatal(err)
	}
	r, err := f.Solve()
	if err != nil || r.Look == nil || math.Abs(r.Hiding[0].Film/29.3-1) > 0.005 || r.Hiding[0].Coats != 3 {
		t.Errorf("%+v, %v", r, err)
	}
}

const plain = `{"form": "fettle film", "wavelengths_nm": {"from": 400, "to": 700, "step": 300}, "substrate": 0.1,
"layers": [{"name": "base", "film_um": 20, "k_per_um": 0.01, "s_per_um": [0.05, 0.06]}], "surface": {"k1": 0.04, "k2": 0.6, "gloss": "excluded"}}`

func TestRefuses(t *testing.T) {
	if _, err := Read(strings.NewReader(plain)); err != nil {
		t.Fatal(err)
	}
	for want, change := range map[string][2]string{
		`form: "film" is not this form`:                 {`fettle film`, `film`},
		"line 2: this is not JSON":                      {`"film_um": 20,`, `"film_um": 20,,`},
		`line 2: there is nothing called "k_per_mm"`:    {`k_per_um`, `k_per_mm`},
		"line 2, layers.film_um: a string does not fit": {`"film_um": 20`, `"film_um": "20"`},
		"layer 1 base, s_per_um, 700 nm: -0.06":         {`0.06]`, `-0.06]`},
		"layer 1 base, s_per_um: value 2 is missing":    {`0.06]`, `null]`},
		"layer 1 base, s_per_um: 3 values for 2 bands":  {`0.06]`, `0.06, 1]`},
		"layer 1 base, k_per_um: \"x\" does not fit":    {`0.01`, `"x"`},
		"substrate: 1.3: 0 to 1 is wanted":              {`0.1,`, `1.3,`},
		"substrate: nothing is said":                    {`"substrate": 0.1,`, ``},
		"layer 1 base: a film of 0 µm":                  {`20`, `0`},
		"layer 1 base, finish: \"gold\"":                {`"film_um"`, `"finish": "gold", "film_um"`},
		"wavelengths_nm: from 400 to 700 by 301":        {`300`, `301`},
		"wavelengths_nm: from 400 to 700 by 0":          {`300`, `0`},
		"surface, gloss: \"some\"":                      {`excluded`, `some`},
		"surface: n or k1":                              {`"k1": 0.04`, `"k1": 0.04, "n": 1.5`},
		`light: "D50" is not known`:                     {`"substrate"`, `"light": "D50", "substrate"`},
		`observer: "3" is not known`:                    {`"substrate"`, `"observer": "3", "substrate"`},
		"line 2: something follows":                     {`"excluded"}}`, `"excluded"}} {}`},
		"layers: 0 layers":                              {plain[strings.Index(plain, `{"name"`):strings.Index(plain, `], "surface"`)], ``},
		"base: no prediction for a metallic film":       {`"film_um"`, `"finish": "metallic", "film_um"`},
		"the surface: k1 0.04 and k2 1":                 {`0.6,`, `1,`},
		"layer 1 base: film_um and coats are both said": {`"film_um"`, `"coats": 2, "film_um"`},
		"layer 1 base, k_per_um: the list is empty":     {`0.01`, `[]`},
		"layer 1 base, k_per_um: 1e999 does not fit":    {`0.01`, `1e999`},
	} {
		text := strings.Replace(plain, change[0], change[1], 1)
		f, err := Read(strings.NewReader(text))
		if err == nil {
			_, err = f.Solve()
		}
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(plain))
	for _, name := range []string{"limewash.json", "bands.json"} {
		data, err := os.ReadFile(filepath.Join("testdata", name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := Read(strings.NewReader(string(data)))
		if err != nil {
			return
		}
		r, err := file.Solve()
		if err != nil {
			return
		}
		if len(r.Seen) != file.Bands {
			t.Fatalf("%d values of %d bands", len(r.Seen), file.Bands)
		}
		for _, v := range r.Inside {
			if !(v >= 0 && v <= 1) {
				t.Errorf("a reflectance of %g", v)
			}
		}
	})
}
