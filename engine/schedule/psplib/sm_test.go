package psplib

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"fettle/engine/schedule/project"
	"fettle/fault"
)

const small = `************************************************************************
file with basedata            : made up
projects                      :  1
jobs (incl. supersource/sink ):  4
RESOURCES
  - renewable                 :  2   R
  - nonrenewable              :  0   N
************************************************************************
PROJECT INFORMATION:
pronr.  #jobs rel.date duedate tardcost  MPM-Time
    1      2      0        5        2        5
************************************************************************
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   3
   2        1          1           4
   3        1          1           4
   4        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------------------------------------------------
  1      1     0       0    0
  2      1     3       1    2
  3      1     5       4    0
  4      1     0       0    0
************************************************************************
RESOURCEAVAILABILITIES:
  R 1  R 2
    4    2
************************************************************************
`

func TestReadSM(t *testing.T) {
	got, err := ReadSM(strings.NewReader(small))
	want := project.Problem{
		Duration: []int32{0, 3, 5, 0},
		Demand:   [][]int32{{0, 0}, {1, 2}, {4, 0}, {0, 0}},
		Capacity: []int32{4, 2},
		Succ:     [][]int32{{1, 2}, {3}, {3}, nil},
	}
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, %v; want %+v", got, err, want)
	}
}

func TestReadSM_SaysWhere(t *testing.T) {
	for _, c := range []struct{ name, from, to, want string }{
		{"no jobs", "jobs (incl.", "jobz (incl.", "line 15: there is no job 1"},
		{"wild number of jobs", ":  4", ":  -4", "line 4: the number of jobs is not a number from 1 to 100000"},
		{"successor unknown", "2   3\n", "2   9\n", "line 15: there is no job 9"},
		{"count of successors", "1        1          2 ", "1        1          3 ", "line 15: the row does not hold as many successors as it says"},
		{"modes", "2        1          1", "2        2          1", "line 16: job 2 has 2 modes; only one is read"},
		{"second mode", "  4      1     0       0    0", "  3      1     0       0    0", "line 26: job 3 has a second mode; only one is read"},
		{"job without duration", "  4      1     0       0    0\n", "", "the file has durations of 3 jobs out of 4"},
		{"more than there is", "3      1     5       4", "3      1     5       5", "activity 2: rule 3: demands are not negative and within the capacity"},
	} {
		_, err := ReadSM(strings.NewReader(strings.Replace(small, c.from, c.to, 1)))
		var f *fault.Fault
		if !errors.As(err, &f) || f.Kind != fault.Invalid || err.Error() != c.want {
			t.Errorf("%s: got %v, want %s", c.name, err, c.want)
		}
	}
}

func FuzzReadSM(f *testing.F) {
	f.Add(small)
	f.Add("jobs (incl. supersource/sink ):  1\nREQUESTS/DURATIONS:\n1 1 1\n")
	f.Fuzz(func(t *testing.T, text string) {
		p, err := ReadSM(strings.NewReader(text))
		if err != nil {
			if _, ok := errors.AsType[*fault.Fault](err); !ok {
				t.Fatalf("not a fault: %v", err)
			}
			return
		}
		if err := project.Validate(p); err != nil {
			t.Fatalf("read without complaint, yet %v", err)
		}
	})
}
