package trim

import (
	"encoding/json"
	"net/url"
	"slices"
	"strings"
	"testing"

	"fettle/geom"
)

// sent is a form as a test sends it.
type sent struct {
	url.Values
	wrong []string
}

func (s *sent) Raw(name string) string { return s.Get(name) }
func (s *sent) Fail(name, msg string)  { s.wrong = append(s.wrong, name) }

func TestReadRings(t *testing.T) {
	for _, c := range []struct {
		text string
		want int // rings; -1 is refused
	}{
		{"", 0}, {"0 0, 10 0, 10 10", 1}, {"0 0, 10 0, 10 10\r\n\n-5 0.5, 3 3, 8 -8, 0 0\n", 2}, {"0 0, 10 0", -1}, {"0 0, 10, 10 10", -1},
		{"a b, c d, e f", -1}, {"0 0, 1e9 0, 1 1", -1}, {"0 0, NaN 0, 1 1", -1}, {strings.Repeat("1 1,", 2001) + "1 1", -1},
	} {
		got, err := readRings(c.text)
		if err != nil && c.want >= 0 || err == nil && len(got) != c.want {
			t.Errorf("%.40q: %d rings, %v, want %d", c.text, len(got), err, c.want)
		}
		if err == nil {
			if again, err := readRings(ringText(got)); err != nil || len(again) != len(got) {
				t.Errorf("%.40q written and read again: %v, %v", c.text, again, err)
			}
		}
	}
}

func FuzzReadRings(f *testing.F) {
	f.Add("0 0, 10 0, 10 10\n1 1, 2 2, 3 1")
	f.Fuzz(func(t *testing.T, text string) {
		rings, err := readRings(text)
		for _, r := range rings {
			if err != nil || len(r) < 3 || slices.ContainsFunc(r, func(p geom.Point) bool { return max(p.X, -p.X, p.Y, -p.Y) > farthest }) {
				t.Errorf("%q gives %v, %v", text, r, err)
			}
		}
	})
}

// TestEditor_Read takes what the page sends, as typed by a person who writes a
// comma, and names each field that cannot be read.
func TestEditor_Read(t *testing.T) {
	e := bench()
	f := &sent{Values: url.Values{"sheet-T01": {"H2"}, "x-T01": {"120,5"}, "y-T01": {"−3"}, "turn-T01": {"95"}, "lock-T01": {"on"}, "outs-H1": {"0 0, 9 0, 9 9"}}}
	e.read(f)
	if got, want := e.Copies[0].Place, (editPlace{"H2", 120.5, -3, 95, true}); got != want || len(f.wrong) > 0 {
		t.Errorf("read %+v, refused %q, want %+v", got, f.wrong, want)
	}
	if len(e.Sheets[0].KeepOuts) != 1 || len(e.on("")) != 4 {
		t.Errorf("%d keep-outs and %d in the tray, want 1 and 4", len(e.Sheets[0].KeepOuts), len(e.on("")))
	}
	f = &sent{Values: url.Values{"sheet-T01": {"H9"}, "x-T01": {"wide"}, "outs-H2": {"1 2 3"}}}
	e.read(f)
	if want := []string{"sheet-T01", "x-T01", "outs-H2"}; !slices.Equal(f.wrong, want) {
		t.Errorf("refused %q, want %q", f.wrong, want)
	}
}

// TestEditor_Data says equal copies once, in the form the script reads.
func TestEditor_Data(t *testing.T) {
	text, err := json.Marshal(bench().data())
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"unit":"mm"`, `"keys":["T02.1","T02.2"]`, `"axis":{"angle":90,"tolerance":10,"oneWay":false}`, `"rotations":[0,90,180,270]`, `"label":"hole"`, `"margin":6`} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the data lack %s", want)
		}
	}
}
