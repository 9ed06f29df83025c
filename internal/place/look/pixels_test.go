package look

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"strings"
	"testing"
)

// chart is a picture of three fields on a light ground, k times as large as shown.
func chart(k int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, 300*k, 200*k))
	fields := []color.RGBA{{0x80, 0x80, 0x80, 255}, {0x1F, 0x4A, 0x55, 255}, {0xED, 0xE7, 0xD6, 255}}
	for y := range 200 * k {
		for x := range 300 * k {
			m.SetRGBA(x, y, fields[x/(100*k)])
		}
	}
	return m
}

func TestUnpack_KeepsColoursAndSmallPictures(t *testing.T) {
	var file bytes.Buffer
	if err := jpeg.Encode(&file, chart(5), &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	m, err := unpack(file.Bytes())
	if err != nil || m.Rect.Dx() != 500 || m.Rect.Dy() != 333 {
		t.Fatalf("%v, %v", m.Rect, err)
	}
	again, err := carriedBack(carried(m))
	if err != nil || !bytes.Equal(again.Pix, m.Pix) {
		t.Errorf("it comes back another: %v", err)
	}
	for x, want := range map[int]string{80: "#808080", 250: "#1F4A55", 420: "#EDE7D6"} {
		got, err := spotAt(again, image.Pt(x, 160))
		if err != nil || apart(got.RGB, want) > 2 || got.Spread > 1 {
			t.Errorf("at %d: %+v, %v, want %s", x, got, err, want)
		}
	}
}

// apart is by how much the channels of two colours differ at most.
func apart(a, b string) float64 {
	var off float64
	for i := 1; i < 7; i += 2 {
		v := func(s string) int {
			return 16*strings.IndexByte("0123456789ABCDEF", s[i]) + strings.IndexByte("0123456789ABCDEF", s[i+1])
		}
		off = max(off, math.Abs(float64(v(a)-v(b))))
	}
	return off
}

func TestSpotAt_RefusesWhatIsNoPatch(t *testing.T) {
	m := chart(1)
	bright := color.RGBA{253, 200, 200, 255}
	m.SetRGBA(250, 100, bright)
	for _, tt := range []struct {
		at   image.Point
		want string
	}{
		{image.Pt(3, 100), "lies at the edge"}, {image.Pt(100, 100), "is uneven"}, {image.Pt(250, 100), "has 1 of 225 pixels clipped"}, {image.Pt(-9, 9000), "lies at the edge"},
	} {
		if got, err := spotAt(m, tt.at); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%v: %+v, %v, want %q", tt.at, got, err, tt.want)
		}
	}
	// One clipped pixel of many that a shown one stands for is not averaged away.
	large := chart(10)
	large.SetRGBA(2500, 1000, bright)
	if _, err := spotAt(smaller(large), image.Pt(500, 200)); err == nil || !strings.Contains(err.Error(), "clipped") {
		t.Errorf("a clipped pixel is averaged away: %v", err)
	}
	// Noise of ± 6 in the red channel alone spreads by 6 ÷ √3.
	for i := 0; i < len(m.Pix); i += 8 {
		m.Pix[i] += 6
		m.Pix[i+4] -= 6
	}
	if got, err := spotAt(m, image.Pt(40, 40)); err != nil || math.Abs(got.Spread-6/math.Sqrt(3)) > 0.05 || apart(got.RGB, "#808080") > 1 {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestUnpack_Refuses(t *testing.T) {
	var small, huge bytes.Buffer
	_ = png.Encode(&small, image.NewGray(image.Rect(0, 0, 9, 9)))
	_ = png.Encode(&huge, image.NewGray(image.Rect(0, 0, 5200, 5200)))
	for want, data := range map[string][]byte{"neither a JPEG nor a PNG": []byte("GIF89a"), "too small": small.Bytes(), "26 million": huge.Bytes()} {
		if _, err := unpack(data); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

// FuzzUnpack: whatever is sent, a picture comes out within its bounds or a fault.
func FuzzUnpack(f *testing.F) {
	var file bytes.Buffer
	_ = png.Encode(&file, chart(1))
	f.Add(file.Bytes())
	f.Add([]byte("\xff\xd8\xff"))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := unpack(data)
		if err == nil && (m.Rect.Dx() > shownEdge || m.Rect.Dy() > shownEdge) {
			t.Errorf("a picture of %v is shown", m.Rect)
		}
	})
}
