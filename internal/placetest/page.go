package placetest

import (
	"bytes"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
)

// Printed are the pages of a PDF as poppler draws them, so many pixels to a
// millimetre. Some of them, or a part of each, are asked for by further options
// of pdftoppm. A test that asks is skipped where poppler is not installed.
func Printed(t testing.TB, pdf string, perMM int, options ...string) []*image.Gray {
	t.Helper()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("the pages cannot be measured: pdftoppm (poppler-utils) is not here")
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "a.pdf")
	if err := os.WriteFile(file, []byte(pdf), 0o600); err != nil {
		t.Fatal(err)
	}
	args := append([]string{"-r", fmt.Sprint(25.4 * float64(perMM)), "-gray"}, options...)
	if out, err := exec.Command("pdftoppm", append(args, file, filepath.Join(dir, "p"))...).CombinedOutput(); err != nil {
		t.Fatalf("pdftoppm: %v %s", err, out)
	}
	names, err := filepath.Glob(filepath.Join(dir, "p*.pgm"))
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

// readGray reads a picture of grey bytes as poppler writes it (PGM, P5).
func readGray(t testing.TB, name string) *image.Gray {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var w, h, most int
	if _, err := fmt.Fscanf(bytes.NewReader(data), "P5\n%d %d\n%d\n", &w, &h, &most); err != nil || most != 255 || len(data) < w*h {
		t.Fatalf("%s is no picture of grey bytes: %v", filepath.Base(name), err)
	}
	return &image.Gray{Pix: data[len(data)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}
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
