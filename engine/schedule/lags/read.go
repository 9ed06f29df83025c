package lags

import (
	"bufio"
	"io"
	"strconv"
	"strings"

	"fettle/fault"
)

// largestFile bounds what Read believes of a first line: activities and resources.
const largestFile = 5000

// Read takes a project from a .sch file as the project generator ProGen/max
// writes it [Schwindt1998]: a line with the number of activities n, renewable
// resources, 0 and 0; then for the activities 0 to n+1, the first and last of
// them dummies, a line with number, modes (1), the count of successors, the
// successors and their start-to-start lags in square brackets; then a line
// each with number, mode, duration and demands; last the capacities.
// Activity k of the file is activity k of the problem. Faults are of kind
// Invalid and name the line.
func Read(r io.Reader) (Problem, error) {
	s := &scanner{in: bufio.NewScanner(r)}
	s.in.Buffer(nil, 1<<20)
	head, err := s.line(4)
	if err != nil {
		return Problem{}, err
	}
	n, resources := head[0]+2, head[1]
	if n < 2 || n > largestFile || resources < 0 || resources > largestFile || head[2] != 0 || head[3] != 0 {
		return Problem{}, s.bad("want activities, renewable resources, 0, 0 with at most %d of each; got %v", largestFile, head)
	}
	p := Problem{}
	for i := 0; i < n && err == nil; i++ {
		err = s.successors(&p, i)
	}
	for i := 0; i < n && err == nil; i++ {
		err = s.work(&p, i, resources)
	}
	if err == nil {
		p.Capacity, err = s.line(resources)
	}
	if err != nil {
		return Problem{}, err
	}
	return p, validate(&p)
}

type scanner struct {
	in *bufio.Scanner
	at int // line number, from 1
}

func (s *scanner) bad(format string, args ...any) *fault.Fault {
	return fault.New(fault.Invalid, format, args...).At("line " + strconv.Itoa(s.at))
}

// line reads the numbers of the next line that is not blank; brackets are
// blanks. It has exactly want of them, or at least -want if want is negative.
func (s *scanner) line(want int) ([]int, error) {
	for s.in.Scan() {
		s.at++
		f := strings.FieldsFunc(s.in.Text(), blank)
		if len(f) == 0 {
			continue
		}
		if len(f) != want && (want >= 0 || len(f) < -want) {
			return nil, s.bad("%d numbers, not %d", len(f), max(want, -want))
		}
		return s.numbers(f)
	}
	s.at++
	if err := s.in.Err(); err != nil {
		return nil, s.bad("cannot be read: %v", err)
	}
	if want == 0 {
		return nil, nil
	}
	return nil, s.bad("the file ends too early")
}

func blank(r rune) bool { return strings.ContainsRune(" \t\r[]", r) }

func (s *scanner) numbers(fields []string) ([]int, error) {
	list := make([]int, len(fields))
	for k, f := range fields {
		v, err := strconv.Atoi(f)
		if err != nil {
			return nil, s.bad("%q is not a whole number", f)
		}
		list[k] = v
	}
	return list, nil
}

func (s *scanner) successors(p *Problem, i int) error {
	v, err := s.line(-3)
	if err != nil {
		return err
	}
	k := v[2]
	if v[0] != i || v[1] != 1 || k < 0 || k > largestFile || len(v) != 3+2*k {
		return s.bad("want activity %d, one mode, the successors and as many lags", i)
	}
	for x := 3; x < 3+k; x++ {
		p.Lags = append(p.Lags, Lag{From: i, To: v[x], Min: v[x+k]})
	}
	return nil
}

func (s *scanner) work(p *Problem, i, resources int) error {
	v, err := s.line(3 + resources)
	if err != nil {
		return err
	}
	if v[0] != i || v[1] != 1 {
		return s.bad("want duration and demands of activity %d in its one mode", i)
	}
	p.Duration = append(p.Duration, v[2])
	p.Demand = append(p.Demand, v[3:])
	return nil
}
