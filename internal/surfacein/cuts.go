package surfacein

import (
	"strconv"
	"strings"

	"fettle/fault"
	"fettle/internal/web"
)

// mostPlaces is how many places a cut may be drawn through.
const mostPlaces = 2000

// Cuts reads a field of cuts, one a line: the vertices that it goes through.
func Cuts(f *web.Form, name string) [][]int32 {
	var cuts [][]int32
	for line := range strings.Lines(f.Raw(name)) {
		list, err := Vertices(line)
		if err != nil {
			f.Fail(name, err.Error())
		}
		if len(list) > 0 {
			cuts = append(cuts, list)
		}
	}
	return cuts
}

// Vertices reads numbers of vertices.
func Vertices(text string) ([]int32, error) {
	var list []int32
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" \t\r\n,;", r) }) {
		n, err := strconv.ParseInt(word, 10, 32)
		if err != nil || n < 0 || len(list) == mostPlaces {
			return nil, fault.New(fault.Invalid, "%.20q is no vertex such as 340", word)
		}
		list = append(list, int32(n))
	}
	return list, nil
}
