package vault

import "image"

// turned makes a picture upright. Orientation o is that of TIFF 6.0, tag 274:
// which edges of the scene row 0 and column 0 of the picture are.
//
//	1 top, left    2 top, right   3 bottom, right  4 bottom, left
//	5 left, top    6 right, top   7 right, bottom  8 left, bottom
func turned(src *image.RGBA, o int) *image.RGBA {
	w, h := src.Rect.Dx(), src.Rect.Dy()
	from := map[int]func(x, y int) (int, int){
		2: func(x, y int) (int, int) { return w - 1 - x, y },
		3: func(x, y int) (int, int) { return w - 1 - x, h - 1 - y },
		4: func(x, y int) (int, int) { return x, h - 1 - y },
		5: func(x, y int) (int, int) { return y, x },
		6: func(x, y int) (int, int) { return y, h - 1 - x },
		7: func(x, y int) (int, int) { return w - 1 - y, h - 1 - x },
		8: func(x, y int) (int, int) { return w - 1 - y, x },
	}[o]
	if from == nil {
		return src
	}
	if o >= 5 { // rows become columns
		return drawn(src, h, w, from)
	}
	return drawn(src, w, h, from)
}

// drawn makes a picture of w by h whose pixel x, y is the source's from(x, y).
func drawn(src *image.RGBA, w, h int, from func(x, y int) (int, int)) *image.RGBA {
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			sx, sy := from(x, y)
			copy(dst.Pix[dst.PixOffset(x, y):][:4], src.Pix[src.PixOffset(sx, sy):][:4])
		}
	}
	return dst
}
