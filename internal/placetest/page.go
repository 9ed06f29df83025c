package placetest

import (
	"fmt"
	"image"
	"image/draw"
	_ "image/png" // what poppler writes
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
)

// Printed are the pages of a PDF as poppler draws them, so many pixels to a
// millimetre. A test that asks is skipped where poppler is not installed.
func Printed(t testing.TB, pdf string, perMM int) []*image.Gray {
	t.Helper()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("the pages cannot be measured: pdftoppm (poppler-utils) is not here")
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "a.pdf")
	if err := os.WriteFile(file, []byte(pdf), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-r", fmt.Sprint(25.4*float64(perMM)), "-gray", "-png", file, filepath.Join(dir, "p")).CombinedOutput(); err != nil {
		t.Fatalf("pdftoppm: %v %s", err, out)
	}
	names, err := filepath.Glob(filepath.Join(dir, "p*.png"))
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(names)
	var pages []*image.Gray
	for _, name := range names {
		pages = append(pages, readGray(t, name))
	}
	return pages
}

func readGray(t testing.TB, name string) *image.Gray {
	t.Helper()
	in, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	m, _, err := image.Decode(in)
	if err != nil {
		t.Fatal(err)
	}
	page := image.NewGray(m.Bounds())
	draw.Draw(page, m.Bounds(), m, m.Bounds().Min, draw.Src)
	return page
}

// Ink are the middles of the dark runs along a row or a column of pixels, in
// pixels. at is the tone at a place of n.
func Ink(at func(i int) uint8, n int) []float64 {
	var list []float64
	for i := 0; i < n; i++ {
		if at(i) >= 128 {
			continue
		}
		from := i
		for i < n && at(i) < 128 {
			i++
		}
		list = append(list, float64(from+i)/2)
	}
	return list
}
