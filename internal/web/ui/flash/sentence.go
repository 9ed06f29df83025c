package flash

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Sentence begins a message with a capital and ends it with a full stop.
func Sentence(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	if size == 0 {
		return s
	}
	s = string(unicode.ToUpper(first)) + s[size:]
	if strings.HasSuffix(s, ".") || strings.HasSuffix(s, "?") {
		return s
	}
	return s + "."
}
