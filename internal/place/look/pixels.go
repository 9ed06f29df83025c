package look

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"math"

	"fettle/fault"
	"fettle/takeoff/sprayout"
)

// What a picture may be, and what is taken out of it.
const (
	mostPixels = 26_000_000 // checked before it is unpacked: a small file may hold a picture that fills the machine
	shownEdge  = 600        // pixels of the picture that is shown and touched
	patchEdge  = 15         // pixels of a patch on it
	clipHigh   = 250        // of 255: from here a camera clips
	mostSpread = 20.0       // of 255: beyond, a patch lies across an edge. Our judgement
)

// unpack reads a JPEG or PNG, as it lies in the file, and makes it smaller: each
// pixel is the mean of those it stands for, and clipped where one of them is.
func unpack(data []byte) (*image.RGBA, error) {
	head, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || kind != "jpeg" && kind != "png" {
		return nil, fault.New(fault.Invalid, "it is neither a JPEG nor a PNG").WithHint("save it as JPEG")
	}
	if head.Width < patchEdge || head.Height < patchEdge {
		return nil, fault.New(fault.Invalid, "with %d × %d pixels it is too small", head.Width, head.Height)
	}
	if head.Width > mostPixels/head.Height {
		return nil, fault.New(fault.TooLarge, "it has more than %d million pixels: make it smaller first", mostPixels/1_000_000)
	}
	decode := jpeg.Decode
	if kind == "png" {
		decode = png.Decode
	}
	src, err := decode(bytes.NewReader(data))
	if err != nil {
		return nil, fault.Wrap(fault.Invalid, err, "unpack the picture")
	}
	return smaller(src), nil
}

// smaller returns a picture with edges of at most shownEdge.
func smaller(src image.Image) *image.RGBA {
	from := src.Bounds()
	k := max(1, (max(from.Dx(), from.Dy())+shownEdge-1)/shownEdge)
	out := image.NewRGBA(image.Rect(0, 0, max(1, from.Dx()/k), max(1, from.Dy()/k)))
	strip := image.NewRGBA(image.Rect(0, 0, out.Rect.Dx()*k, k))
	for y := range out.Rect.Dy() {
		draw.Draw(strip, strip.Rect, image.White, image.Point{}, draw.Src)
		draw.Draw(strip, strip.Rect, src, from.Min.Add(image.Pt(0, y*k)), draw.Over)
		for x := range out.Rect.Dx() {
			out.SetRGBA(x, y, meanOf(strip, image.Rect(x*k, 0, (x+1)*k, k)))
		}
	}
	return out
}

// meanOf returns the mean of pixels; a channel that is clipped in one of them is
// clipped.
func meanOf(m *image.RGBA, r image.Rectangle) color.RGBA {
	var sum [3]int
	var high, low [3]bool
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			for i, v := range m.Pix[m.PixOffset(x, y):][:3] {
				sum[i] += int(v)
				high[i], low[i] = high[i] || v >= clipHigh, low[i] || v == 0
			}
		}
	}
	var out [3]uint8
	n := r.Dx() * r.Dy()
	for i := range out {
		switch {
		case high[i]:
			out[i] = 255
		case low[i]:
			out[i] = 0
		default:
			out[i] = uint8((sum[i] + n/2) / n)
		}
	}
	return color.RGBA{out[0], out[1], out[2], 255}
}

// around is the patch about a place.
func around(at image.Point) image.Rectangle {
	corner := at.Sub(image.Pt(patchEdge/2, patchEdge/2))
	return image.Rectangle{Min: corner, Max: corner.Add(image.Pt(patchEdge, patchEdge))}
}

// spotAt returns the mean of the patch about a place and how far its pixels
// spread, one deviation of a channel on 0 to 255. Clipped pixels, and a patch of
// two colours, are refused.
func spotAt(m *image.RGBA, at image.Point) (sprayout.Spot, error) {
	r := around(at)
	if !r.In(m.Rect) {
		return sprayout.Spot{}, fault.New(fault.Invalid, "lies at the edge: the picture has %d × %d pixels, and a patch takes %d", m.Rect.Dx(), m.Rect.Dy(), patchEdge)
	}
	var sum, squares [3]float64
	clipped := 0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			p := m.Pix[m.PixOffset(x, y):][:3]
			if max(p[0], p[1], p[2]) >= clipHigh || min(p[0], p[1], p[2]) == 0 {
				clipped++
			}
			for i, v := range p {
				sum[i] += float64(v)
				squares[i] += float64(v) * float64(v)
			}
		}
	}
	const n = patchEdge * patchEdge
	if clipped > 0 {
		return sprayout.Spot{}, fault.New(fault.Invalid, "has %d of %d pixels clipped, where the camera knows no colour: take another place, or expose otherwise", clipped, n)
	}
	variance := 0.0
	for i := range sum {
		mean := sum[i] / n
		variance += max(squares[i]/n-float64(mean*mean), 0) / 3
	}
	s := sprayout.Spot{RGB: fmt.Sprintf("#%02X%02X%02X", round(sum[0]/n), round(sum[1]/n), round(sum[2]/n)), Spread: math.Sqrt(variance)}
	if s.Spread > mostSpread {
		return s, fault.New(fault.Invalid, "is uneven: its pixels spread by %.0f of 255; take a place of one colour", s.Spread)
	}
	return s, nil
}

func round(v float64) int { return int(math.Round(v)) }

// framed returns a copy of a picture with the patches framed.
func framed(m *image.RGBA, at []image.Point) *image.RGBA {
	c := image.NewRGBA(m.Rect)
	copy(c.Pix, m.Pix)
	for _, p := range at {
		outer := around(p)
		for i, tone := range []color.Color{color.White, color.Black} {
			frame(c, outer.Inset(-1-i), tone)
		}
	}
	return c
}

func frame(m *image.RGBA, r image.Rectangle, c color.Color) {
	for x := r.Min.X; x < r.Max.X; x++ {
		m.Set(x, r.Min.Y, c)
		m.Set(x, r.Max.Y-1, c)
	}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		m.Set(r.Min.X, y, c)
		m.Set(r.Max.X-1, y, c)
	}
}

// carried writes a picture as a form carries it: nothing is kept of it here.
func carried(m image.Image) string {
	var b bytes.Buffer
	_ = (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, m) // into memory: it cannot fail
	return base64.StdEncoding.EncodeToString(b.Bytes())
}

// carriedBack reads what a form carried.
func carriedBack(text string) (*image.RGBA, error) {
	data, err := base64.StdEncoding.DecodeString(text)
	if err != nil {
		return nil, fault.New(fault.Invalid, "came back damaged: choose it again")
	}
	return unpack(data)
}
