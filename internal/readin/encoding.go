package readin

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"fettle/fault"
)

// decodeText turns bytes into UTF-8 and says which encoding it took.
func decodeText(data []byte) (text, encoding string, err error) {
	if f := notText(data); f != nil {
		return "", "", f
	}
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xfe\x00\x00")), bytes.HasPrefix(data, []byte("\x00\x00\xfe\xff")):
		return "", "", invalid("the text is UTF-32").WithHint("save it as CSV in UTF-8")
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		text, encoding = strings.ToValidUTF8(string(data[3:]), "\ufffd"), "UTF-8 with byte order mark"
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		text, encoding = decodeWide(data[2:], unicode.LittleEndian), "UTF-16 little-endian"
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		text, encoding = decodeWide(data[2:], unicode.BigEndian), "UTF-16 big-endian"
	default:
		text, encoding = decodeBare(data)
	}
	if i := strings.IndexFunc(text, binary); i >= 0 {
		line := strings.Count(text[:i], "\n") + 1
		return "", "", invalid("line %d holds a byte of value %d, which no list has: this is not text", line, text[i]).
			WithHint("save the list as CSV in UTF-8, or as a workbook (.xlsx)")
	}
	return text, encoding, nil
}

// binary reports characters that no typed list holds.
func binary(r rune) bool {
	return r < ' ' && r != '\t' && r != '\n' && r != '\r' && r != '\f' && r != '\v' && r != 0x1a
}

func decodeWide(data []byte, order unicode.Endianness) string {
	out, err := unicode.UTF16(order, unicode.IgnoreBOM).NewDecoder().Bytes(data)
	if err != nil {
		return strings.ToValidUTF8(string(data), "\ufffd")
	}
	return string(out)
}

// decodeBare reads text without a byte order mark: UTF-8 where nearly all of
// it is, else the one-byte encoding of western Windows, of which Latin-1 is a
// part.
func decodeBare(data []byte) (text, encoding string) {
	good, broken := wideRunes(data)
	if broken == 0 {
		return string(data), "UTF-8"
	}
	if good > 4*broken {
		return strings.ToValidUTF8(string(data), "\ufffd"), "UTF-8 with broken characters"
	}
	out, err := charmap.Windows1252.NewDecoder().Bytes(data)
	if err != nil {
		return strings.ToValidUTF8(string(data), "\ufffd"), "UTF-8 with broken characters"
	}
	return string(out), "Windows-1252 (assumed)"
}

// wideRunes counts well-formed characters beyond ASCII and stray bytes.
func wideRunes(data []byte) (good, broken int) {
	for len(data) > 0 {
		r, n := utf8.DecodeRune(data)
		switch {
		case r == utf8.RuneError && n == 1:
			broken++
		case n > 1:
			good++
		}
		data = data[n:]
	}
	return good, broken
}

// notText names common files that are no list, so that the message can say
// what to do instead.
func notText(data []byte) *fault.Fault {
	head := asciiLower(bytes.TrimSpace(data[:min(len(data), 200)]))
	known := []struct{ start, is, do string }{
		{"%pdf", "a PDF", "export the list as CSV or as a workbook (.xlsx)"},
		{"\x89png", "a picture", "type or export the list as CSV"},
		{"\xff\xd8\xff", "a picture", "type or export the list as CSV"},
		{"\x1f\x8b", "a packed file", "unpack it first"},
		{"{\\rtf", "a letter with formatting", "save the table as CSV"},
		{"<!doctype html", "a web page", "open it in a spreadsheet and save it as .xlsx or CSV"},
		{"<html", "a web page", "open it in a spreadsheet and save it as .xlsx or CSV"},
		{"<?xml", "an XML file", "open it in a spreadsheet and save it as .xlsx or CSV"},
	}
	for _, k := range known {
		if bytes.HasPrefix(head, []byte(k.start)) {
			return invalid("this is %s, not a list", k.is).WithHint(k.do)
		}
	}
	if bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")) {
		return compound(data)
	}
	return nil
}

// asciiLower lowers A to Z and leaves every other byte as it is.
func asciiLower(data []byte) []byte {
	lower := bytes.Clone(data)
	for i, c := range lower {
		if c >= 'A' && c <= 'Z' {
			lower[i] = c + 'a' - 'A'
		}
	}
	return lower
}

// compound tells the two workbooks apart that come in the old container: one
// locked with a password, and the form that was used before .xlsx.
func compound(data []byte) *fault.Fault {
	var wide []byte
	for _, c := range []byte("EncryptedPackage") {
		wide = append(wide, c, 0)
	}
	if bytes.Contains(data, wide) {
		return invalid("the workbook is locked with a password").WithHint("save a copy without a password")
	}
	return invalid("this is a workbook of the old form (.xls), or a letter").WithHint("save it as .xlsx or as CSV")
}
