package shapein_test

import (
	"strings"
	"testing"

	"fettle/internal/shapein"
)

func TestRead_CornersOfAUnit(t *testing.T) {
	s, err := shapein.Read("0 0\n4, 0\n4;2\n0 2\n\n1 0.5\n2 0.5\n2 1", 25.4)
	if err != nil || len(s.Holes) != 1 || s.Polygon().Bounds().Max.X != 101.6 {
		t.Errorf("read %+v: %v", s, err)
	}
	for _, bad := range []string{"", "1 2 3", "0 0\nx 1", "0 0\n1 1\n1 0\n0 1", "0 0\n1e9 0\n1 1"} {
		if _, err := shapein.Read(bad, 1); err == nil {
			t.Errorf("%q is a shape", bad)
		}
	}
}

// FuzzRead: what is read is written and read again as it was.
func FuzzRead(f *testing.F) {
	f.Add("0 0\n100 0\n100 50")
	f.Add("0 0 100 0 100 50\n20 10 30 10 30 20")
	f.Add("0,5 0\n−3 2")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := shapein.Read(text, 1)
		if err != nil {
			return
		}
		again, err := shapein.Read(shapein.Corners(s), 1)
		if err == nil && len(again.Holes) != len(s.Holes) {
			t.Errorf("%q came back as %q", text, shapein.Corners(again))
		}
	})
}

func TestFromFile_OnlyDrawings(t *testing.T) {
	svg := `<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="50mm" viewBox="0 0 80 50"><path d="M0 0H80V50H0Z"/></svg>`
	if s, err := shapein.FromFile("plate.SVG", strings.NewReader(svg), 0); err != nil || s.Area() != 4000 {
		t.Errorf("read %v: %v", s.Area(), err)
	}
	if _, err := shapein.FromFile("plate.txt", strings.NewReader(svg), 0); err == nil {
		t.Error("a text is a drawing")
	}
}
