package colour_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fettle/engine/colour"
	"fettle/fault"
)

// reader is either of the two readers.
type reader func(string, colour.Scale) ([]colour.Sample, error)

func cgats(s string, c colour.Scale) ([]colour.Sample, error) {
	return colour.ReadCGATS(strings.NewReader(s), c)
}

func table(s string, c colour.Scale) ([]colour.Sample, error) {
	return colour.ReadCSV(strings.NewReader(s), c)
}

func file(t testing.TB, name string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// rows writes a table with one sample, of a step, between two wavelengths.
func rows(from, to, step int, value func(nm float64) float64) string {
	var b strings.Builder
	b.WriteString("nm,sample\n")
	for w := from; w <= to; w += step {
		fmt.Fprintf(&b, "%d,%.9f\n", w, value(float64(w)))
	}
	return b.String()
}

func smooth(w float64) float64 { return 0.4 + 0.3*math.Sin((w-380)/70) }

func TestReadCGATS_Card(t *testing.T) {
	list, err := cgats(file(t, "card.cgats.txt"), colour.Guess)
	if err != nil || len(list) != 2 {
		t.Fatalf("%d samples, %v", len(list), err)
	}
	if s := list[0]; s.Name != "harbour teal" || s.Spectrum[12] != 0.36 || len(s.Notes) != 0 {
		t.Errorf("%q with %.4f at 500 nm and notes %q, want harbour teal with 0.36 and none", s.Name, s.Spectrum[12], s.Notes)
	}
}

// TestReadCGATS_Spellings writes the same flat sample in the ways that
// instruments do.
func TestReadCGATS_Spellings(t *testing.T) {
	const n, grey = colour.Bands, "0.25"
	fields := func(name string) (all string) {
		for i := range n {
			all += fmt.Sprintf(name+" ", colour.Wavelength(i))
		}
		return all
	}
	file := func(fields, values string) string {
		return "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_NAME " + fields + "\nEND_DATA_FORMAT\nBEGIN_DATA\n\"a b\" " + values + "\nEND_DATA\n"
	}
	plain := strings.Repeat(grey+" ", n)
	percent := strings.Repeat("25,0 ", n)
	pairs, paired := "", ""
	for i := range n {
		pairs += "SPECTRAL_NM SPECTRAL_PCT "
		paired += fmt.Sprintf("%d 25 ", colour.Wavelength(n-1-i))
	}
	for name, text := range map[string]string{
		"SPECTRAL_NM380":  file(fields("SPECTRAL_NM%d"), plain),
		"SPECTRAL_NM_380": file(fields("SPECTRAL_NM_%d"), plain),
		"SPECTRAL_380":    file(fields("SPECTRAL_%d"), plain),
		"nm380":           file(fields("nm%d"), plain),
		"R_380 nm":        file(fields("R_%dnm"), plain),
		"380nm":           file(fields("%dnm"), plain),
		"DEC380":          file(fields("SPECTRAL_DEC%d"), plain),
		"PCT380, commas":  file(fields("SPECTRAL_PCT%d"), percent),
		"pairs, falling":  file(pairs, paired),
		"percent guessed": file(fields("NM_%d"), percent),
		"old line ends":   strings.ReplaceAll(file(fields("NM%d"), plain), "\n", "\r"),
	} {
		list, err := cgats(text, colour.Guess)
		if err != nil || len(list) != 1 || list[0].Name != "a b" || *list[0].Spectrum != colour.Flat(0.25) {
			t.Errorf("%s: %+v, %v, want one flat sample of 0.25", name, list, err)
		}
	}
}

func TestReadCGATS_LabOnly(t *testing.T) {
	list, err := cgats("CGATS.17\nWEIGHTING_FUNCTION \"ILLUMINANT, D65\"\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n7 52.1 -30,5 -4.25\nEND_DATA", colour.Guess)
	if err != nil || len(list) != 1 {
		t.Fatalf("%v, %v", list, err)
	}
	if s := list[0]; s.Name != "7" || s.Spectrum != nil || *s.Lab != (colour.Lab{L: 52.1, A: -30.5, B: -4.25}) || s.Notes[0] != "Lab was read under ILLUMINANT, D65" {
		t.Errorf("%+v, want sample 7 with Lab only, read under D65", s)
	}
}

func TestRead_TellsTheKinds(t *testing.T) {
	for _, name := range []string{"card.cgats.txt", "card_20nm_percent.csv"} {
		list, err := colour.Read(strings.NewReader(file(t, name)), colour.Guess)
		if err != nil || len(list) != 2 || list[1].Name != "chalk cream" {
			t.Errorf("%s: %d samples, %v", name, len(list), err)
		}
	}
}

func TestReadCSV_TwentyNanometresPercent(t *testing.T) {
	exact, err := cgats(file(t, "card.cgats.txt"), colour.Guess)
	if err != nil {
		t.Fatal(err)
	}
	list, err := table(file(t, "card_20nm_percent.csv"), colour.Guess)
	if err != nil || len(list) != 2 {
		t.Fatalf("%d samples, %v", len(list), err)
	}
	if want := "taken as percent: values reach above 2|380 nm to 400 nm: held at the value of 400 nm|700 nm to 730 nm: held at the value of 700 nm"; strings.Join(list[0].Notes, "|") != want {
		t.Errorf("notes %q, want %q", list[0].Notes, want)
	}
	v := colour.NewViewer(colour.D65(), colour.Degrees2())
	for i, s := range list {
		if off := colour.Difference(v.Lab(*s.Spectrum), v.Lab(*exact[i].Spectrum)); off > 0.1 {
			t.Errorf("%s: %.3f from the reading by 10 nm, want at most 0.1", s.Name, off)
		}
	}
}

func TestReadCSV_Steps(t *testing.T) {
	for _, c := range []struct {
		from, to, step int
		by             float64
	}{{380, 730, 10, 1e-9}, {380, 730, 5, 1e-9}, {360, 780, 1, 1e-9}, {360, 760, 20, 2e-4}, {383, 733, 7, 2e-6}} {
		list, err := table(rows(c.from, c.to, c.step, smooth), colour.Guess)
		if err != nil {
			t.Errorf("by %d nm: %v", c.step, err)
			continue
		}
		worst := 0.0
		for i := 1; i < colour.Bands; i++ {
			worst = max(worst, math.Abs(list[0].Spectrum[i]-smooth(float64(colour.Wavelength(i)))))
		}
		if worst > c.by {
			t.Errorf("by %d nm: strays by %.2g, want at most %.2g", c.step, worst, c.by)
		}
	}
}

func TestReaders_SayWhereAndWhatToDo(t *testing.T) {
	flat := func(float64) float64 { return 0.5 }
	ten, card := rows(380, 730, 10, flat), file(t, "card.cgats.txt")
	swap := func(s, old, new string) string {
		if !strings.Contains(s, old) {
			t.Fatalf("%q is not in the file", old)
		}
		return strings.Replace(s, old, new, 1)
	}
	for _, c := range []struct {
		read  reader
		text  string
		scale colour.Scale
		want  string
	}{
		{table, swap(ten, "540,0.500000000", "540,1.43"), colour.Guess, `line 18, 540 nm, sample "sample": reflectance 1.43 is above 1.2: is the file in percent?`},
		{table, swap(ten, "540,0.500000000", "540,143"), colour.Percent, `line 18, 540 nm, sample "sample": reflectance 143 % is above 120 %`},
		{table, swap(ten, "540,0.500000000", "540,-0.02"), colour.Guess, `line 18, 540 nm, sample "sample": reflectance -0.02 is below 0`},
		{table, swap(ten, "540,0.500000000", "540,"), colour.Guess, `line 18, 540 nm, sample "sample": a gap: there is no reflectance`},
		{table, swap(ten, "540,0.500000000\n", ""), colour.Guess, `line 18, 550 nm, sample "sample": a gap: nothing between 530 nm and 550 nm, steps elsewhere are 10 nm`},
		{table, swap(ten, "540,0.500000000", "540,0,5"), colour.Guess, `line 18: 3 cells, the first row has 2`},
		{table, swap(ten, "540,", "530,"), colour.Guess, `line 18, 530 nm, sample "sample": 530 nm comes after 530 nm`},
		{table, swap(ten, "540,0.500000000", "540,1.234,5"), colour.Guess, `line 18: 3 cells, the first row has 2`},
		{table, "nm;a\n400;1.234,5\n", colour.Guess, `line 2, 400 nm, sample "a": "1.234,5" is no number`},
		{table, rows(380, 660, 10, flat), colour.Guess, `line 30, 660 nm, sample "sample": the reading ends at 660 nm`},
		{table, rows(420, 730, 10, flat), colour.Guess, `line 2, 420 nm, sample "sample": the reading begins at 420 nm`},
		{table, rows(380, 730, 25, flat), colour.Guess, `line 3, 405 nm, sample "sample": steps of 25 nm are too wide for a spectrum`},
		{table, "name,380,390,400,410,420,430,440\na,1,1,1,1,1,1,1\n", colour.Guess, `line 1: wavelengths run across the first row`},
		{table, "0.5\n", colour.Guess, `line 1: there is only one column`},
		{table, "nm,a\n", colour.Guess, `there is no wavelength below the names`},
		{table, "", colour.Guess, `there is no reading in the file`},
		{table, "a\x00b", colour.Guess, `this is not plain text`},
		{cgats, swap(card, "0.3600", "1.43"), colour.Guess, `line 10, 500 nm, sample "harbour teal": reflectance 1.43 is above 1.2: is the file in percent?`},
		{cgats, swap(card, "0.3600", "n/a"), colour.Guess, `line 10, 500 nm: "n/a" is no number`},
		{cgats, swap(card, " 0.3600", ""), colour.Guess, `line 10: 37 values, the format names 38 fields`},
		{cgats, swap(card, "FIELDS 38", "FIELDS 39"), colour.Guess, `line 5: NUMBER_OF_FIELDS says 39, the format names 38`},
		{cgats, swap(card, "SETS 2", "SETS 3"), colour.Guess, `line 9: NUMBER_OF_SETS says 3, the table holds 2`},
		{cgats, swap(card, "SETS 2", "SETS two"), colour.Guess, `line 8: NUMBER_OF_SETS has no whole number behind it`},
		{cgats, swap(card, "END_DATA\n", "\n"), colour.Guess, `line 9: BEGIN_DATA is never closed by END_DATA`},
		{cgats, swap(card, "SPECTRAL_NM540", "OTHER"), colour.Guess, `line 10, 550 nm, sample "harbour teal": a gap: nothing between 530 nm and 550 nm, steps elsewhere are 10 nm`},
		{cgats, "CGATS.17\nBEGIN_DATA\n1\nEND_DATA", colour.Guess, `line 2: BEGIN_DATA comes before any field is named`},
		{cgats, "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID\nEND_DATA_FORMAT\nBEGIN_DATA\n1\nEND_DATA", colour.Guess, `line 6: the table has neither a spectrum nor Lab`},
		{cgats, "nm,a\n380,0.5\n", colour.Guess, `there is no BEGIN_DATA in the file: it is not CGATS text`},
	} {
		_, err := c.read(c.text, c.scale)
		if err == nil || err.Error() != c.want {
			t.Errorf("said %v\nwant %s", err, c.want)
			continue
		}
		if fault.KindOf(err) != fault.Invalid {
			t.Errorf("%v is %v, want invalid", err, fault.KindOf(err))
		}
	}
}

func TestReaders_TooLarge(t *testing.T) {
	long := strings.Repeat("#\n", 5<<20)
	for _, read := range []reader{table, cgats} {
		if _, err := read(long, colour.Guess); fault.KindOf(err) != fault.TooLarge {
			t.Errorf("%v, want too large", err)
		}
	}
}

func TestReadCSV_NoiseOfABlack(t *testing.T) {
	list, err := table(rows(380, 720, 10, smooth)+"730,-0.0004\n", colour.Guess)
	if err != nil || list[0].Spectrum[35] != 0 || len(list[0].Notes) != 1 {
		t.Errorf("%+v, %v, want 0 at 730 nm with a note", list, err)
	}
}

// fuzz holds a reader to samples that are whole and reflectance throughout.
func fuzz(f *testing.F, read reader) {
	f.Add(file(f, "card.cgats.txt"), uint8(0))
	f.Add(file(f, "card_20nm_percent.csv"), uint8(0))
	f.Add(rows(380, 730, 5, smooth), uint8(1))
	f.Add("CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n7 52 -30,5 -4\nEND_DATA", uint8(2))
	f.Fuzz(func(t *testing.T, text string, scale uint8) {
		list, err := read(text, colour.Scale(scale%3))
		if err != nil {
			if k := fault.KindOf(err); k != fault.Invalid && k != fault.TooLarge {
				t.Fatalf("%v is %v", err, k)
			}
			return
		}
		for _, s := range list {
			if s.Spectrum == nil && s.Lab == nil || s.Spectrum != nil && s.Spectrum.Validate() != nil {
				t.Fatalf("%+v was read, want a spectrum that is one, or Lab", s)
			}
		}
	})
}

func FuzzReadCGATS(f *testing.F) { fuzz(f, cgats) }
func FuzzReadCSV(f *testing.F)   { fuzz(f, table) }
