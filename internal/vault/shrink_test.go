package vault

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"strings"
	"testing"

	"fettle/fault"
)

func TestShrink_Size(t *testing.T) {
	for _, c := range []struct{ w, h, longest, wantW, wantH int }{
		{400, 300, 100, 100, 75},
		{300, 400, 100, 75, 100},
		{400, 300, 400, 400, 300},
		{400, 300, 1000, 400, 300},
		{1000, 1, 100, 100, 1},
		{3, 1000, 100, 1, 100},
		{333, 250, 100, 100, 75}, // 75.08
		{1, 1, 1, 1, 1},
		{66000, 2, 1 << 30, 65535, 2}, // JPEG's own limit
	} {
		out, err := Shrink(bytes.NewReader(pngOf(t, image.NewGray(image.Rect(0, 0, c.w, c.h)))), c.longest)
		if err != nil {
			t.Errorf("%d by %d to %d: %v", c.w, c.h, c.longest, err)
			continue
		}
		if got := decoded(t, out).Bounds().Size(); got != image.Pt(c.wantW, c.wantH) {
			t.Errorf("%d by %d to %d: got %v, want %d by %d", c.w, c.h, c.longest, got, c.wantW, c.wantH)
		}
	}
}

// TestShrink_Upright stores a scene in each of the eight ways, as the table of
// TIFF 6.0 states them (which side of the scene row 0 and column 0 are), and
// wants the scene back.
func TestShrink_Upright(t *testing.T) {
	sides := [][2]string{1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
		5: {"left", "top"}, 6: {"right", "top"}, 7: {"right", "bottom"}, 8: {"left", "bottom"}}
	for o := 1; o <= 8; o++ {
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			in := withJPEGExif(jpegOf(t, stored(sides[o][0], sides[o][1])), tiff(order, o))
			out, err := Shrink(bytes.NewReader(in), sceneW)
			if err != nil {
				t.Fatalf("orientation %d: %v", o, err)
			}
			wantScene(t, fmt.Sprintf("orientation %d, %v", o, order), decoded(t, out))
			if w, h, err := Size(bytes.NewReader(in)); err != nil || w != sceneW || h != sceneH {
				t.Errorf("orientation %d: %d by %d upright, %v", o, w, h, err)
			}
			if bytes.Contains(out, exifHead) {
				t.Errorf("orientation %d: EXIF is still there", o)
			}
		}
	}
}

const sceneW, sceneH = 64, 32

// scene has a colour of its own in each quarter.
func scene(x, y int) color.RGBA {
	return [2][2]color.RGBA{{{250, 20, 20, 255}, {20, 250, 20, 255}}, {{20, 20, 250, 255}, {240, 240, 240, 255}}}[2*y/sceneH][2*x/sceneW]
}

// stored is the picture whose row 0 and column 0 are those sides of the scene.
func stored(row0, col0 string) image.Image {
	along := map[string]func(n int) int{
		"top": func(n int) int { return n }, "bottom": func(n int) int { return sceneH - 1 - n },
		"left": func(n int) int { return n }, "right": func(n int) int { return sceneW - 1 - n },
	}
	upright := row0 == "top" || row0 == "bottom"
	size := image.Rect(0, 0, sceneW, sceneH)
	if !upright {
		size = image.Rect(0, 0, sceneH, sceneW)
	}
	img := image.NewRGBA(size)
	for r := range size.Dy() {
		for c := range size.Dx() {
			x, y := along[col0](c), along[row0](r)
			if !upright {
				x, y = along[row0](r), along[col0](c)
			}
			img.SetRGBA(c, r, scene(x, y))
		}
	}
	return img
}

func wantScene(t *testing.T, what string, got image.Image) {
	t.Helper()
	if size := got.Bounds().Size(); size != image.Pt(sceneW, sceneH) {
		t.Errorf("%s: size %v, want %d by %d", what, size, sceneW, sceneH)
		return
	}
	for _, p := range []image.Point{{8, 8}, {56, 8}, {8, 24}, {56, 24}} {
		if g, w := color.RGBAModel.Convert(got.At(p.X, p.Y)).(color.RGBA), scene(p.X, p.Y); apart(g, w) > 30 {
			t.Errorf("%s: at %v got %v, want about %v", what, p, g, w)
		}
	}
}

func apart(a, b color.RGBA) int {
	d := func(x, y uint8) int { return max(int(x)-int(y), int(y)-int(x)) }
	return max(d(a.R, b.R), d(a.G, b.G), d(a.B, b.B))
}

// TestOrientation_Containers reads the same EXIF out of each container, and
// takes damaged EXIF as upright.
func TestOrientation_Containers(t *testing.T) {
	exif := tiff(binary.BigEndian, 6)
	photo := jpegOf(t, stored("top", "left"))
	for _, c := range []struct {
		name  string
		media Media
		data  []byte
		want  int
	}{
		{"JPEG", JPEG, withJPEGExif(photo, exif), 6},
		{"JPEG, behind another segment", JPEG, withSegment(withJPEGExif(photo, exif), 0xe2, []byte("ICC")), 6},
		{"JPEG, filled before the marker", JPEG, append([]byte("\xff\xd8\xff\xff"), withJPEGExif(photo, exif)[2:]...), 6},
		{"PNG", PNG, withPNGExif(pngOf(t, stored("top", "left")), exif), 6},
		{"WebP", WebP, withWebPExif(exif), 6},
		{"WebP with JPEG's head before it", WebP, withWebPExif(append(bytes.Clone(exifHead), exif...)), 6},
		{"none", JPEG, photo, 1},
		{"orientation 9", JPEG, withJPEGExif(photo, tiff(binary.BigEndian, 9)), 1},
		{"orientation 0", JPEG, withJPEGExif(photo, tiff(binary.BigEndian, 0)), 1},
		{"cut in the directory", JPEG, withJPEGExif(photo, exif[:12]), 1},
		{"directory outside", JPEG, withJPEGExif(photo, []byte("MM\x00*\xff\xff\xff\xff\x00\x01")), 1},
		{"no byte order", JPEG, withJPEGExif(photo, []byte("XX\x00*\x00\x00\x00\x08\x00\x01")), 1},
		{"segment longer than the file", JPEG, []byte("\xff\xd8\xff\xe1\xff\xffExif\x00\x00"), 1},
	} {
		if got := orientation(c.media, c.data); got != c.want {
			t.Errorf("%s: got %d, want %d", c.name, got, c.want)
		}
	}
}

func TestShrink_WhiteBehindTransparent(t *testing.T) {
	out, err := Shrink(bytes.NewReader(pngOf(t, image.NewNRGBA(image.Rect(0, 0, 9, 9)))), 9)
	if err != nil {
		t.Fatal(err)
	}
	if got := color.RGBAModel.Convert(decoded(t, out).At(4, 4)).(color.RGBA); apart(got, color.RGBA{255, 255, 255, 255}) > 3 {
		t.Errorf("got %v, want white", got)
	}
}

// smallWebP is a lossless WebP of one pixel.
var smallWebP, _ = base64.StdEncoding.DecodeString("UklGRhoAAABXRUJQVlA4TA0AAAAvAAAAEAcQERGIiP4HAA==")

func TestShrink_WebP(t *testing.T) {
	out, err := Shrink(bytes.NewReader(smallWebP), 9)
	if err != nil || decoded(t, out).Bounds().Dx() != 1 {
		t.Errorf("got %d bytes, %v; want one pixel", len(out), err)
	}
}

// TestShrink_Refuses includes pictures whose head claims more pixels than a
// machine can hold: they are refused by the head alone.
func TestShrink_Refuses(t *testing.T) {
	photo := jpegOf(t, stored("top", "left"))
	for _, c := range []struct {
		name    string
		in      io.Reader
		longest int
		want    fault.Kind
	}{
		{"nothing", strings.NewReader(""), 9, fault.Invalid},
		{"text", strings.NewReader("hello, world, hello"), 9, fault.Invalid},
		{"PDF", strings.NewReader("%PDF-1.7\n1 0 obj"), 9, fault.Invalid},
		{"no edge", bytes.NewReader(photo), 0, fault.Invalid},
		{"cut JPEG", bytes.NewReader(photo[:len(photo)/2]), 9, fault.Invalid},
		{"JPEG of 3 bytes", bytes.NewReader(photo[:3]), 9, fault.Invalid},
		{"cut WebP", bytes.NewReader(smallWebP[:20]), 9, fault.Invalid},
		{"PNG of 81 megapixels", bytes.NewReader(pngHead(9000, 9000, 8)), 9, fault.TooLarge},
		{"PNG of 4 terapixels", bytes.NewReader(pngHead(2_000_000, 2_000_000, 8)), 9, fault.TooLarge},
		{"PNG of 60 megapixels in 16 bits", bytes.NewReader(pngHead(10000, 6000, 16)), 9, fault.TooLarge},
		{"JPEG of 100 megapixels", bytes.NewReader(jpegHead(10000, 10000)), 9, fault.TooLarge},
		{"endless", io.MultiReader(bytes.NewReader(photo), zeros{}), 9, fault.TooLarge},
		{"broken line", io.MultiReader(bytes.NewReader(photo[:50]), broken{}), 9, fault.Internal},
	} {
		_, err := Shrink(c.in, c.longest)
		if err == nil || fault.KindOf(err) != c.want {
			t.Errorf("%s: got %v (%v), want %v", c.name, fault.KindOf(err), err, c.want)
		}
	}
}

// FuzzShrink feeds damaged files: a smaller JPEG or a fault, never a panic.
func FuzzShrink(f *testing.F) {
	photo := jpegOf(f, stored("right", "top"))
	f.Add(withJPEGExif(photo, tiff(binary.LittleEndian, 6)), 20)
	f.Add(withPNGExif(pngOf(f, stored("top", "left")), tiff(binary.BigEndian, 3)), 7)
	f.Add(smallWebP, 3)
	f.Add(withWebPExif(tiff(binary.BigEndian, 8)), 3)
	f.Add(photo[:len(photo)-30], 100)
	f.Add(pngHead(9000, 9000, 8), 5)
	f.Fuzz(func(t *testing.T, data []byte, longest int) {
		if len(data) > 1<<16 || claimed(data) > 1<<20 {
			return // sound but slow; TestShrink_Refuses has the limits
		}
		longest %= 200
		out, err := Shrink(bytes.NewReader(data), longest)
		if err != nil {
			if k := fault.KindOf(err); k != fault.Invalid && k != fault.TooLarge {
				t.Fatalf("got %v: %v", k, err)
			}
			return
		}
		if size := decoded(t, out).Bounds().Size(); max(size.X, size.Y) > longest {
			t.Fatalf("got %v, want at most %d", size, longest)
		}
	})
}

// claimed is how many pixels a file says it has, when that can be read.
func claimed(data []byte) int {
	cfg, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return 0
	}
	return cfg.Width * cfg.Height
}

// BenchmarkShrink makes a screen picture of a phone's 12 megapixels.
func BenchmarkShrink(b *testing.B) {
	img := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	for i := range img.Y {
		img.Y[i] = byte(i*i>>7) & 0x7f
	}
	data := jpegOf(b, img)
	for b.Loop() {
		if _, err := Shrink(bytes.NewReader(data), 1600); err != nil {
			b.Fatal(err)
		}
	}
}

type zeros struct{}

func (zeros) Read(b []byte) (int, error) { clear(b); return len(b), nil }

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errors.New("line broken") }

func pngOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func jpegOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func decoded(t testing.TB, data []byte) image.Image {
	t.Helper()
	img, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("the result is not a JPEG: %v", err)
	}
	return img
}

// tiff is EXIF with two tags, of which the second is the orientation.
func tiff(order binary.AppendByteOrder, o int) []byte {
	b := []byte("II*\x00")
	if order.String() == "BigEndian" {
		b = []byte("MM\x00*")
	}
	b = order.AppendUint32(b, 8)
	b = order.AppendUint16(b, 2)
	for _, e := range [][2]uint16{{256, 64}, {274, uint16(o)}} {
		b = order.AppendUint16(b, e[0])
		b = order.AppendUint16(b, 3)
		b = order.AppendUint32(b, 1)
		b = order.AppendUint16(b, e[1])
		b = order.AppendUint16(b, 0)
	}
	return order.AppendUint32(b, 0)
}

func withJPEGExif(photo, exif []byte) []byte {
	return withSegment(photo, 0xe1, append(bytes.Clone(exifHead), exif...))
}

func withSegment(photo []byte, marker byte, body []byte) []byte {
	out := append(bytes.Clone(photo[:2]), 0xff, marker)
	out = binary.BigEndian.AppendUint16(out, uint16(len(body)+2))
	return append(append(out, body...), photo[2:]...)
}

func withPNGExif(photo, exif []byte) []byte {
	const behindHead = 8 + 25 // signature and IHDR
	out := append(bytes.Clone(photo[:behindHead]), chunk("eXIf", exif)...)
	return append(out, photo[behindHead:]...)
}

func chunk(name string, body []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	named := append([]byte(name), body...)
	return binary.BigEndian.AppendUint32(append(out, named...), crc32.ChecksumIEEE(named))
}

// pngHead is the beginning of a PNG in RGBA without pixels.
func pngHead(w, h uint32, depth byte) []byte {
	body := binary.BigEndian.AppendUint32(nil, w)
	body = binary.BigEndian.AppendUint32(body, h)
	return append([]byte("\x89PNG\r\n\x1a\n"), chunk("IHDR", append(body, depth, 6, 0, 0, 0))...)
}

// jpegHead is the beginning of a grey JPEG without pixels.
func jpegHead(w, h uint16) []byte {
	body := binary.BigEndian.AppendUint16([]byte{8}, h)
	body = binary.BigEndian.AppendUint16(body, w)
	photo := withSegment([]byte("\xff\xd8\xff\xd9"), 0xc0, append(body, 1, 1, 0x11, 0))
	return withSegment(photo, 0xe0, []byte("JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00"))
}

// withWebPExif is smallWebP in the extended form with EXIF at its end.
func withWebPExif(exif []byte) []byte {
	part := func(name string, body []byte) []byte {
		out := binary.LittleEndian.AppendUint32([]byte(name), uint32(len(body)))
		return append(append(out, body...), make([]byte, len(body)%2)...)
	}
	body := append([]byte("WEBP"), part("VP8X", []byte{8, 0, 0, 0, 0, 0, 0, 0, 0, 0})...)
	body = append(append(body, smallWebP[12:]...), part("EXIF", exif)...)
	return part("RIFF", body)
}
