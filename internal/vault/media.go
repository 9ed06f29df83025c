package vault

import (
	"bytes"

	"fettle/fault"
)

// Media is the media type of a photo or scan.
type Media string

// The media we keep.
const (
	JPEG Media = "image/jpeg"
	PNG  Media = "image/png"
	WebP Media = "image/webp"
	PDF  Media = "application/pdf"
	Mesh Media = "model/vnd.fettle.mesh" // a scanned surface, packed by geom/mesh
)

// SniffLen is how many of the first bytes Sniff wants to see; fewer will do
// when there are no more.
const SniffLen = 16

// Sniff tells the media by the first bytes: JPEG's start of image and next
// marker (ITU-T T.81, B.1.1), PNG's signature (W3C PNG, 5.2), WebP's RIFF head
// (RFC 9649, 2.4), PDF's header (ISO 32000-1, 7.5.2), the name and version of a packed mesh. Anything
// else is Invalid.
func Sniff(head []byte) (Media, error) {
	switch {
	case len(head) == 0:
		return "", fault.New(fault.Invalid, "the file is empty")
	case bytes.HasPrefix(head, []byte("\xff\xd8\xff")):
		return JPEG, nil
	case bytes.HasPrefix(head, []byte("\x89PNG\r\n\x1a\n")):
		return PNG, nil
	case len(head) >= 15 && string(head[:4]) == "RIFF" && string(head[8:15]) == "WEBPVP8":
		return WebP, nil
	case bytes.HasPrefix(head, []byte("%PDF-")):
		return PDF, nil
	case bytes.HasPrefix(head, []byte("fettlem1")):
		return Mesh, nil
	}
	return "", fault.New(fault.Invalid, "this is neither a photo (JPEG, PNG, WebP) nor a scan (PDF)").
		WithHint("save it as JPEG or PDF, then send it again; the name of the file does not matter")
}
