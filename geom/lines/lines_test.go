package lines_test

import (
	"slices"
	"strings"
	"testing"

	"fettle/geom/lines"
)

func TestLines(t *testing.T) {
	l := lines.Of("v 1 2\r\n\n\t# a  comment\rf 1 \\\n 2 3")
	var got []string
	for l.Next() {
		if l.Words[len(l.Words)-1] == `\` {
			l.More()
		}
		got = append(got, strings.Join(l.Words, ","))
	}
	if want := []string{"v,1,2", "#,a,comment", `f,1,\,2,3`}; !slices.Equal(got, want) {
		t.Errorf("lines %q, want %q", got, want)
	}
	if lines.Of("\n \n").Next() || lines.Of("").Next() {
		t.Error("a line without words is a line")
	}
}

func TestLines_Numbers(t *testing.T) {
	l := lines.Of("\nv 1 -2.5e3 1,5 7\nlast")
	l.Next()
	var two [2]float64
	if err := l.Floats(1, two[:]); err != nil || two != [2]float64{1, -2500} {
		t.Errorf("%v, %v", two, err)
	}
	if n, err := l.Int(4); err != nil || n != 7 {
		t.Errorf("%d, %v", n, err)
	}
	_, noInt := l.Int(2)
	_, none := l.Int(9)
	for _, c := range []struct {
		err  error
		says string
	}{
		{l.Floats(2, two[:]), `line 2: "1,5" is not a number`}, {l.Floats(4, two[:]), "line 2: 1 numbers are missing"},
		{noInt, "line 2: \"-2.5e3\" is not a whole number"}, {none, "line 2: a number is missing"},
	} {
		if err := l.Within(c.err); err == nil || err.Error() != c.says {
			t.Errorf("%v, want %s", err, c.says)
		}
	}
	if l.Next(); l.Rest != "" || l.Words[0] != "last" {
		t.Errorf("words %q, rest %q", l.Words, l.Rest)
	}
}
