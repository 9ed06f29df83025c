package vault

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"

	"golang.org/x/image/draw"
	"golang.org/x/image/webp"

	"fettle/fault"
)

// The limits of a picture that is to be made smaller. They are checked before
// it is unpacked: a small file may hold a picture that fills the machine.
const (
	maxFile   = 100 << 20  // bytes of the file
	maxPixels = 80_000_000 // the largest phone photos have 50 to 60 million with room above
	maxMemory = 4 * maxPixels
	maxEdge   = 1<<16 - 1 // JPEG writes an edge in 16 bits
)

// quality of the JPEG: the loss is not seen at the size of a screen.
const quality = 85

// codec reads one media.
type codec struct {
	config func(io.Reader) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
}

// Shrink returns a JPEG of the picture in r with edges of at most longest
// pixels, upright by its EXIF orientation, on white where it was transparent,
// and without EXIF, so also without the place where it was taken. A smaller
// picture keeps its size. Invalid for damaged input, a PDF or longest < 1;
// TooLarge for files over 100 MB and pictures over 80 megapixels or, at more
// than 4 bytes a pixel, over 320 MB. The largest need about 1 GB for a moment:
// let one run at a time.
func Shrink(r io.Reader, longest int) ([]byte, error) {
	if longest < 1 {
		return nil, fault.New(fault.Invalid, "the longest edge of %d pixels is less than 1", longest).At("longest")
	}
	media, data, err := readPhoto(r)
	if err != nil {
		return nil, err
	}
	src, err := unpack(media, data)
	if err != nil {
		return nil, err
	}
	return pack(turned(scaled(src, min(longest, maxEdge)), orientation(media, data)))
}

// Size returns how many pixels a picture has across and down once it stands
// upright by its EXIF orientation. Invalid for damaged input and a PDF, TooLarge
// as Shrink.
func Size(r io.Reader) (width, height int, err error) {
	media, data, err := readPhoto(r)
	if err != nil {
		return 0, 0, err
	}
	_, cfg, err := measure(media, data)
	if err != nil {
		return 0, 0, err
	}
	if orientation(media, data) >= 5 { // rows become columns
		return cfg.Height, cfg.Width, nil
	}
	return cfg.Width, cfg.Height, nil
}

// readPhoto reads a file within the limits and tells its media.
func readPhoto(r io.Reader) (Media, []byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return "", nil, fault.Wrap(fault.Internal, err, "read the photo")
	}
	if len(data) > maxFile {
		return "", nil, fault.New(fault.TooLarge, "the photo's file has more than %d MB", maxFile>>20)
	}
	media, err := Sniff(data[:min(len(data), SniffLen)])
	if err != nil {
		return "", nil, err
	}
	return media, data, nil
}

func unpack(media Media, data []byte) (image.Image, error) {
	c, _, err := measure(media, data)
	if err != nil {
		return nil, err
	}
	img, err := c.decode(bytes.NewReader(data))
	if err != nil {
		return nil, damaged(err)
	}
	if img.Bounds().Empty() {
		return nil, fault.New(fault.Invalid, "the photo has no pixels")
	}
	return img, nil
}

// measure reads how large a picture is, and what reads the rest of it.
func measure(media Media, data []byte) (codec, image.Config, error) {
	var c codec
	switch media {
	case JPEG:
		c = codec{jpeg.DecodeConfig, jpeg.Decode}
	case PNG:
		c = codec{png.DecodeConfig, png.Decode}
	case WebP:
		c = codec{webp.DecodeConfig, webp.Decode}
	default:
		return c, image.Config{}, fault.New(fault.Invalid, "a scan of type %s is no picture in pixels", media)
	}
	cfg, err := c.config(bytes.NewReader(data))
	if err != nil {
		return c, cfg, damaged(err)
	}
	return c, cfg, fits(cfg)
}

// fits refuses what would take too much memory; int64 because width times
// height may pass 32 bits.
func fits(cfg image.Config) error {
	pixels := int64(cfg.Width) * int64(cfg.Height)
	if pixels > maxPixels || pixels*pixelBytes(cfg.ColorModel) > maxMemory {
		return fault.New(fault.TooLarge, "the photo is %d by %d pixels; %d megapixels is the most", cfg.Width, cfg.Height, maxPixels/1_000_000).
			WithHint("send it in a smaller size")
	}
	return nil
}

func pixelBytes(m color.Model) int64 {
	switch m {
	case color.RGBA64Model, color.NRGBA64Model:
		return 8
	}
	return 4
}

func damaged(err error) error {
	return &fault.Fault{Kind: fault.Invalid, Msg: "the photo is damaged: " + err.Error(), Hint: "take it or send it again", Cause: err}
}

// scaled draws the picture on white so that its longer edge is at most longest.
func scaled(src image.Image, longest int) *image.RGBA {
	size := src.Bounds().Size()
	w, h := fit(size.X, size.Y, longest)
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(dst, dst.Bounds(), image.White, image.Point{}, draw.Src)
	draw.ApproxBiLinear.Scale(dst, dst.Bounds(), src, src.Bounds(), draw.Over, nil)
	return dst
}

// fit keeps the shape, to the nearest pixel and never below one.
func fit(w, h, longest int) (int, int) {
	most := max(w, h)
	if most <= longest {
		return w, h
	}
	part := func(n int) int { return max(1, (n*longest+most/2)/most) }
	return part(w), part(h)
}

func pack(img image.Image) ([]byte, error) {
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: quality}); err != nil {
		return nil, fault.Wrap(fault.Internal, err, "write the smaller photo")
	}
	return out.Bytes(), nil
}
