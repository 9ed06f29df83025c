package lags

import (
	"context"
	"reflect"
	"strings"
	"testing"

	"fettle/fault"
)

const twoJobs = `2	1	0	0
0	1	2	1	2	[0]	[0]
1	1	2	2	3	[-1]	[4]
2	1	1	3	[3]
3	1	0
0	1	0	0
1	1	4	1
2	1	3	2
3	1	0	0
2
`

func TestRead(t *testing.T) {
	got, err := Read(strings.NewReader(twoJobs))
	want := Problem{
		Duration: []int{0, 4, 3, 0},
		Demand:   [][]int{{0}, {1}, {2}, {0}},
		Capacity: []int{2},
		Lags:     []Lag{{0, 1, 0}, {0, 2, 0}, {1, 2, -1}, {1, 3, 4}, {2, 3, 3}},
	}
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, %v; want %+v", got, err, want)
	}
}

func TestRead_SaysWhere(t *testing.T) {
	cases := []struct{ name, old, new, where string }{
		{"head", "2\t1\t0\t0\n0", "2\t1\t1\t0\n0", "line 1"},
		{"number", "[-1]", "[x]", "line 3"},
		{"modes", "2\t1\t1\t3", "2\t2\t1\t3", "line 4"},
		{"too few lags", "\t[3]", "", "line 4"},
		{"too few demands", "1\t1\t4\t1", "1\t1\t4", "line 7"},
		{"order of jobs", "2\t1\t3\t2", "1\t1\t3\t2", "line 8"},
		{"end", "3\t1\t0\t0\n2\n", "3\t1\t0\t0\n", "line 10"},
		{"no such successor", "2\t1\t1\t3\t", "2\t1\t1\t9\t", "lag 4"},
		{"negative count", "2\t1\t1\t3\t[3]", "2\t1\t-1\t3\t[3]", "line 4"},
	}
	for _, c := range cases {
		_, err := Read(strings.NewReader(strings.Replace(twoJobs, c.old, c.new, 1)))
		if fault.KindOf(err) != fault.Invalid || !strings.HasPrefix(err.Error(), c.where+":") {
			t.Errorf("%s: error %v, want one at %s", c.name, err, c.where)
		}
	}
}

// Whatever is read is either refused or a problem that can be worked on.
func FuzzRead(f *testing.F) {
	f.Add(twoJobs)
	f.Add("0 0 0 0\n0 1 0\n1 1 0\n0 1 0\n1 1 0\n")
	f.Add(strings.ReplaceAll(twoJobs, "3", "-3"))
	f.Fuzz(func(t *testing.T, text string) {
		p, err := Read(strings.NewReader(text))
		if err != nil {
			if fault.KindOf(err) != fault.Invalid {
				t.Fatalf("error %v, want an invalid file", err)
			}
			return
		}
		if _, err := Solve(context.Background(), p, Options{}); err != nil {
			t.Fatalf("read without complaint, but: %v", err)
		}
	})
}
