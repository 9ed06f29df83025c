package browser

import (
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"testing"

	"fettle/geom"
)

// shot is a photo of a hide on a floor by a known camera: tilted, and with a
// lens that bends. Its bend is the correction: what is seen at q half diagonals
// from the middle lies at q(1 + bend q²) for a straight lens.
type shot struct {
	w, h        float64
	focal, bend float64
	high        float64 // mm above the floor
	tilt        float64 // about the picture's x, radians
}

var aShot = shot{w: 1800, h: 1500, focal: 1.25, bend: 0.06, high: 3200, tilt: 0.14}

func (s shot) half() float64 { return math.Hypot(s.w, s.h) / 2 }

// floor is what a pixel shows, in mm from the point below the middle of the picture.
func (s shot) floor(x, y float64) geom.Point {
	q := geom.Point{X: (x - s.w/2) / s.half(), Y: (s.h/2 - y) / s.half()}
	u := q.Scale((1 + s.bend*(q.X*q.X+q.Y*q.Y)) / s.focal)
	sin, cos := math.Sincos(s.tilt)
	// The ray u.X, u.Y, -1 turned by the tilt; the camera stands back from what it looks at.
	far := s.high / (cos - u.Y*sin)
	return geom.Point{X: u.X * far, Y: (u.Y*cos+sin)*far - s.high*math.Tan(s.tilt)}
}

// pixel is where a point of the floor is seen, by steps of Newton on numbers.
func (s shot) pixel(p geom.Point) geom.Point {
	at := geom.Point{X: s.w / 2, Y: s.h / 2}
	for range 50 {
		f := s.floor(at.X, at.Y)
		dx, dy := s.floor(at.X+0.5, at.Y).Sub(f).Scale(2), s.floor(at.X, at.Y+0.5).Sub(f).Scale(2)
		off, det := p.Sub(f), dx.Cross(dy)
		at = at.Add(geom.Point{X: off.Cross(dy) / det, Y: dx.Cross(off) / det})
	}
	return at
}

// floorHide is the hide on the floor, a point every few centimetres.
func floorHide(n int) []geom.Point {
	out := make([]geom.Point, n)
	for i := range out {
		a := 2 * math.Pi * (float64(i) + 0.5) / float64(n)
		r := 1 + 0.1*math.Cos(4*a+0.6) + 0.04*math.Sin(3*a)
		out[i] = geom.Point{X: 1130 * r * math.Cos(a), Y: 950 * r * math.Sin(a)}
	}
	return out
}

// floorBox is the rectangle that is taped around the hide.
var floorBox = []geom.Point{{X: -1350, Y: -1150}, {X: 1350, Y: -1150}, {X: 1350, Y: 1150}, {X: -1350, Y: 1150}}

// colourAt paints the floor: tape, planks, leather, a hole.
func colourAt(hide geom.Polygon, p geom.Point) color.RGBA {
	tape := geom.Ring(floorBox).Distance(p) < 14
	switch {
	case p.Distance(geom.Point{X: 300, Y: 200}) < 60:
		return color.RGBA{40, 34, 30, 255}
	case tape:
		return color.RGBA{236, 232, 214, 255}
	case hide.Contains(p):
		v := uint8(8 * (math.Sin(p.X/90) + math.Sin(p.Y/70+p.X/200)))
		return color.RGBA{168 + v, 112 + v, 66 + v, 255}
	case math.Abs(math.Mod(p.Y+10_000, 320)) < 7:
		return color.RGBA{60, 60, 62, 255}
	}
	return color.RGBA{112, 114, 116, 255}
}

// take writes the photo as a file.
func (s shot) take(t *testing.T) string {
	t.Helper()
	hide := geom.Polygon{Outer: floorHide(240)}
	img := image.NewRGBA(image.Rect(0, 0, int(s.w), int(s.h)))
	for y := range int(s.h) {
		for x := range int(s.w) {
			img.SetRGBA(x, y, colourAt(hide, s.floor(float64(x)+0.5, float64(y)+0.5)))
		}
	}
	path := filepath.Join(t.TempDir(), "hide.jpg")
	f, err := os.Create(path)
	if err == nil {
		err = jpeg.Encode(f, img, nil)
	}
	if err == nil {
		err = f.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return path
}
