package vault

import (
	"testing"

	"fettle/fault"
)

func TestSniff(t *testing.T) {
	for _, c := range []struct {
		name, head string
		want       Media // empty: refused
	}{
		{"JPEG with JFIF", "\xff\xd8\xff\xe0\x00\x10JFIF", JPEG},
		{"JPEG with EXIF", "\xff\xd8\xff\xe1\x00\x10Exif", JPEG},
		{"PNG", "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", PNG},
		{"WebP lossy", "RIFF\x24\x00\x00\x00WEBPVP8 ", WebP},
		{"WebP lossless", "RIFF\x24\x00\x00\x00WEBPVP8L", WebP},
		{"WebP extended", "RIFF\x24\x00\x00\x00WEBPVP8X", WebP},
		{"PDF", "%PDF-1.7\n", PDF},
		{"packed mesh", "fettlem1\x04\x00\x00\x00\x02\x00\x00\x00", Mesh},
		{"packed mesh of a later form", "fettlem2\x04\x00\x00\x00", ""},
		{"nothing", "", ""},
		{"half a JPEG mark", "\xff\xd8", ""},
		{"PNG through a text filter", "\x89PNG\n\x1a\n", ""},
		{"sound in RIFF", "RIFF\x24\x00\x00\x00WAVEfmt ", ""},
		{"GIF", "GIF89a\x01\x00\x01\x00", ""},
		{"SVG", "<svg xmlns=", ""},
		{"HTML", "<!DOCTYPE html>", ""},
		{"PDF behind white space", "\n%PDF-1.7", ""},
		{"program", "\x7fELF\x02\x01\x01", ""},
		{"zip", "PK\x03\x04\x14\x00", ""},
	} {
		got, err := Sniff([]byte(c.head))
		if got != c.want || (err == nil) != (c.want != "") {
			t.Errorf("%s: got %q, %v; want %q", c.name, got, err, c.want)
		}
		if err != nil && fault.KindOf(err) != fault.Invalid {
			t.Errorf("%s: got %v, want Invalid", c.name, fault.KindOf(err))
		}
	}
}
