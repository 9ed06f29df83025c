// Package lines walks a text file line by line and word by word, and gives
// faults their line.
package lines

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/fault"
)

// Lines is a file under way.
type Lines struct {
	Words []string // of the line, without white space
	Rest  string   // what comes behind the line
	at    int
}

// Of begins before the first line.
func Of(text string) *Lines { return &Lines{Rest: text} }

// Next goes on to the next line that has words and reports whether there is one.
// Lines end in LF, CR or both.
func (l *Lines) Next() bool {
	l.Words = l.Words[:0]
	for l.Rest != "" && len(l.Words) == 0 {
		l.More()
	}
	return len(l.Words) > 0
}

// More adds the words of the next line to those at hand.
func (l *Lines) More() {
	line := l.Rest
	end := strings.IndexAny(line, "\n\r")
	if end < 0 {
		l.Rest = ""
	} else {
		if strings.HasPrefix(line[end:], "\r\n") {
			l.Rest = line[end+2:]
		} else {
			l.Rest = line[end+1:]
		}
		line = line[:end]
	}
	l.at++
	l.split(line)
}

func (l *Lines) split(line string) {
	for i := 0; i < len(line); {
		for i < len(line) && (line[i] == ' ' || line[i] == '\t') {
			i++
		}
		from := i
		for i < len(line) && line[i] != ' ' && line[i] != '\t' {
			i++
		}
		if i > from {
			l.Words = append(l.Words, line[from:i])
		}
	}
}

// Floats reads numbers from the words that begin with word i. Its faults, like
// those of Int, have no place yet: Within gives them one.
func (l *Lines) Floats(i int, into []float64) error {
	if len(l.Words) < i+len(into) {
		return fault.New(fault.Invalid, "%d numbers are missing", i+len(into)-len(l.Words))
	}
	for k := range into {
		x, err := strconv.ParseFloat(l.Words[i+k], 64)
		if err != nil {
			return fault.New(fault.Invalid, "%.40q is not a number", l.Words[i+k])
		}
		into[k] = x
	}
	return nil
}

// Int reads a whole number from word i.
func (l *Lines) Int(i int) (int64, error) {
	if i >= len(l.Words) {
		return 0, fault.New(fault.Invalid, "a number is missing")
	}
	n, err := strconv.ParseInt(l.Words[i], 10, 64)
	if err != nil {
		return 0, fault.New(fault.Invalid, "%.40q is not a whole number", l.Words[i])
	}
	return n, nil
}

// Within puts the line before the place of a fault.
func (l *Lines) Within(err error) error {
	return fault.Within(err, fmt.Sprintf("line %d", l.at))
}
