package colour_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fettle/engine/colour"
)

// TestReadCSV_Forms writes two samples in the ways that programs do.
func TestReadCSV_Forms(t *testing.T) {
	write := func(head, line string) string {
		b := strings.Builder{}
		b.WriteString(head)
		for i := range colour.Bands {
			fmt.Fprintf(&b, line, colour.Wavelength(i))
		}
		return b.String()
	}
	named := []string{"door", "wing"}
	for name, c := range map[string]struct {
		text  string
		scale colour.Scale
		names []string
	}{
		"commas":              {write("nm,door,wing\n", "%d,0.25,0.5\n"), colour.Guess, named},
		"semicolons, commas":  {write("nm;door;wing\n", "%d;0,25;0,5\n"), colour.Guess, named},
		"tabs":                {write("nm\tdoor\twing\n", "%d\t0.25\t0,5\n"), colour.Guess, named},
		"quotes, blanks":      {write(`"wavelength, nm", "door", wing `+"\n", "%d, 0.25, 0.5\n"), colour.Guess, named},
		"no names":            {write("", "%d,0.25,0.5\n"), colour.Guess, []string{"column 2", "column 3"}},
		"nm behind":           {write("x,door,wing\n", "%d nm,0.25,0.5\n"), colour.Guess, named},
		"notes, empty lines":  {write("# a card\n\nnm,door,wing\n,,\n", "%d,0.25,0.5\n\n"), colour.Guess, named},
		"mark at the head":    {write("\ufeffnm,door,wing\n", "%d,0.25,0.5\n"), colour.Guess, named},
		"said to be percent":  {write("nm,door,wing\n", "%d,25,50\n"), colour.Percent, named},
		"percent below two":   {write("nm,door,wing\n", "%d,0.25,0.5\n"), colour.Fraction, named},
		"a name out of UTF-8": {write("nm,door,wing\xe9\n", "%d,0.25,0.5\n"), colour.Guess, []string{"door", "wing?"}},
		"exponents":           {write("nm,door,wing\n", "%d,25e-2,5E-1\n"), colour.Guess, named},
	} {
		list, err := table(c.text, c.scale)
		if err != nil || len(list) != 2 {
			t.Errorf("%s: %d samples, %v", name, len(list), err)
			continue
		}
		for i, v := range []float64{0.25, 0.5} {
			if list[i].Name != c.names[i] || *list[i].Spectrum != colour.Flat(v) {
				t.Errorf("%s: sample %q is %v, want %q with %g throughout", name, list[i].Name, *list[i].Spectrum, c.names[i], v)
			}
		}
	}
}

// TestReadCGATS_Tables has two tables with formats of their own, keywords in
// small letters, what is of no use, and a set over two lines.
func TestReadCGATS_Tables(t *testing.T) {
	half := strings.Repeat("0.5 ", colour.Bands/2)
	fields := ""
	for i := range colour.Bands {
		fields += fmt.Sprintf("nm%d ", colour.Wavelength(i))
	}
	text := "CGATS.17\nCREATED \"today\" # by hand\nKEYWORD \"XYZ_X\"\n" +
		"number_of_fields 38\nbegin_data_format\nSAMPLE_ID XYZ_X " + fields + "\nend_data_format\nnumber_of_sets 1\nbegin_data\n" +
		"A1 44.1 " + half + "\n" + half + "\nend_data\n" +
		"BEGIN_DATA_FORMAT\nLAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n50 1 2 60 3 4\nEND_DATA\n"
	list, err := cgats(text, colour.Guess)
	if err != nil || len(list) != 3 {
		t.Fatalf("%d samples, %v", len(list), err)
	}
	if s := list[0]; s.Name != "A1" || *s.Spectrum != colour.Flat(0.5) || s.Lab != nil {
		t.Errorf("first: %+v, want A1, 0.5 throughout", s)
	}
	if s := list[2]; s.Name != "sample 3" || *s.Lab != (colour.Lab{L: 60, A: 3, B: 4}) || !strings.HasPrefix(s.Notes[0], "the file does not say") {
		t.Errorf("last: %+v, want sample 3 with Lab and a warning", s)
	}
}

// TestReadCSV_SpragueIsExact reads a polynomial of the fourth degree by 20 nm:
// the interpolation adds nothing to it, and near the ends not to one of the fifth.
func TestReadCSV_SpragueIsExact(t *testing.T) {
	four := func(w float64) float64 {
		x := (w - 555) / 200
		return 0.5 + 0.2*x - 0.1*x*x + 0.05*x*x*x - 0.1*x*x*x*x
	}
	list, err := table(rows(370, 750, 20, four), colour.Guess)
	if err != nil {
		t.Fatal(err)
	}
	for i, got := range list[0].Spectrum {
		if want := four(float64(colour.Wavelength(i))); !near(got, want, 3e-9) {
			t.Errorf("%d nm: %.9f, want %.9f", colour.Wavelength(i), got, want)
		}
	}
}

// TestReadCSV_HeldEnds has a reading from 400 to 700 nm, and a step upward
// that the polynomial must not carry beyond what a reflectance can be.
func TestReadCSV_HeldEnds(t *testing.T) {
	list, err := table(rows(400, 700, 10, smooth), colour.Guess)
	if err != nil {
		t.Fatal(err)
	}
	if s := list[0].Spectrum; !near(s[0], smooth(400), 1e-9) || !near(s[35], smooth(700), 1e-9) || len(list[0].Notes) != 2 {
		t.Errorf("ends %g, %g with notes %q, want %g, %g and two", s[0], s[35], list[0].Notes, smooth(400), smooth(700))
	}
	edge := func(w float64) float64 { return math.Round((1 + math.Tanh((w-550)/3)) / 2) }
	if list, err = table(rows(370, 750, 20, edge), colour.Guess); err != nil {
		t.Fatal(err)
	}
	if err := list[0].Spectrum.Validate(); err != nil {
		t.Errorf("a steep side became %v", err)
	}
}
