package vault

import (
	"bytes"
	"encoding/binary"
)

// orientation finds the EXIF orientation of a picture, 1 to 8. A picture
// without one, or with damaged EXIF, is taken as upright: it is better seen
// lying down than not at all.
func orientation(media Media, data []byte) int {
	var tiff []byte
	switch media {
	case JPEG:
		tiff = jpegExif(data)
	case PNG:
		tiff = pngExif(data)
	case WebP:
		tiff = webpExif(data)
	}
	if o := tiffOrientation(tiff); o >= 1 && o <= 8 {
		return o
	}
	return 1
}

var exifHead = []byte("Exif\x00\x00")

// jpegExif walks the segments before the scan to APP1 (Exif 2.3, 4.5.4): FF,
// marker, length in two bytes that counts itself.
func jpegExif(b []byte) []byte {
	const app1, startOfScan = 0xe1, 0xda
	for b = b[min(2, len(b)):]; len(b) >= 4 && b[0] == 0xff && b[1] != startOfScan; {
		if b[1] == 0xff { // filling before a marker
			b = b[1:]
			continue
		}
		n := int(binary.BigEndian.Uint16(b[2:]))
		if n < 2 || 2+n > len(b) {
			return nil
		}
		if body := b[4 : 2+n]; b[1] == app1 && bytes.HasPrefix(body, exifHead) {
			return body[len(exifHead):]
		}
		b = b[2+n:]
	}
	return nil
}

// pngExif walks the chunks to eXIf: length, name, body, check sum.
func pngExif(b []byte) []byte {
	for b = b[min(8, len(b)):]; len(b) >= 12; {
		n := int64(binary.BigEndian.Uint32(b))
		if n+12 > int64(len(b)) {
			return nil
		}
		if string(b[4:8]) == "eXIf" {
			return b[8 : 8+n]
		}
		b = b[12+n:]
	}
	return nil
}

// webpExif walks the RIFF chunks to EXIF: name, length, body, filled to even.
func webpExif(b []byte) []byte {
	for b = b[min(12, len(b)):]; len(b) >= 8; {
		n := int64(binary.LittleEndian.Uint32(b[4:]))
		if n+8 > int64(len(b)) {
			return nil
		}
		if string(b[:4]) == "EXIF" {
			return bytes.TrimPrefix(b[8:8+n], exifHead)
		}
		b = b[min(8+n+n%2, int64(len(b))):]
	}
	return nil
}

// tiffOrientation reads tag 274 of the first directory (TIFF 6.0, section 2):
// byte order, 42, offset of the directory; there a count and entries of 12
// bytes: tag, type, count, value. 0 when there is none.
func tiffOrientation(b []byte) int {
	if len(b) < 8 {
		return 0
	}
	var order binary.ByteOrder
	switch string(b[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 0
	}
	at := int64(order.Uint32(b[4:]))
	if at+2 > int64(len(b)) {
		return 0
	}
	const tag, short, entry = 274, 3, 12
	n := int(order.Uint16(b[at:]))
	for dir := b[at+2:]; n > 0 && len(dir) >= entry; n, dir = n-1, dir[entry:] {
		if order.Uint16(dir) == tag && order.Uint16(dir[2:]) == short {
			return int(order.Uint16(dir[8:]))
		}
	}
	return 0
}
