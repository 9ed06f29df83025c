package psplib

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"

	"fettle/engine/schedule/project"
	"fettle/fault"
)

const most = 100_000 // jobs; a line longer than bufio's limit is a fault too

// ReadSM reads one project of the single-mode format with extension .sm. The
// first and last jobs are dummies and stay activities of duration 0; job 1 of
// the file is activity 0. Faults are of kind Invalid and name the line.
func ReadSM(r io.Reader) (project.Problem, error) {
	b := smReader{}
	s := bufio.NewScanner(r)
	for line := 1; s.Scan(); line++ {
		if err := b.line(s.Text()); err != nil {
			return project.Problem{}, err.At(fmt.Sprintf("line %d", line))
		}
	}
	if err := s.Err(); err != nil {
		return project.Problem{}, fault.Wrap(fault.Invalid, err, "read the project")
	}
	return b.problem()
}

type smReader struct {
	section string
	jobs    int // as announced
	p       project.Problem
	times   int // rows of durations read
}

func (b *smReader) line(text string) *fault.Fault {
	name, value, colon := strings.Cut(text, ":")
	name = strings.TrimSpace(name)
	if strings.HasPrefix(text, "jobs ") && colon {
		n, err := strconv.Atoi(strings.TrimSpace(value))
		if err != nil || n < 1 || n > most {
			return fault.New(fault.Invalid, "the number of jobs is not a number from 1 to %d", most)
		}
		b.jobs = n
		b.p.Succ, b.p.Duration, b.p.Demand = make([][]int32, n), make([]int32, n), make([][]int32, n)
		return nil
	}
	switch name {
	case "PRECEDENCE RELATIONS", "REQUESTS/DURATIONS", "RESOURCEAVAILABILITIES", "PROJECT INFORMATION":
		b.section = name
		return nil
	}
	row := numbers(text)
	if row == nil {
		return nil
	}
	switch b.section {
	case "PRECEDENCE RELATIONS":
		return b.links(row)
	case "REQUESTS/DURATIONS":
		return b.work(row)
	case "RESOURCEAVAILABILITIES":
		b.p.Capacity = row
	}
	return nil
}

func (b *smReader) job(n int32) *fault.Fault {
	if n < 1 || int(n) > b.jobs {
		return fault.New(fault.Invalid, "there is no job %d", n)
	}
	return nil
}

// links reads: job, modes, count, successors.
func (b *smReader) links(row []int32) *fault.Fault {
	if len(row) < 3 || int(row[2]) != len(row)-3 {
		return fault.New(fault.Invalid, "the row does not hold as many successors as it says")
	}
	if row[1] != 1 {
		return fault.New(fault.Invalid, "job %d has %d modes; only one is read", row[0], row[1])
	}
	if err := b.job(row[0]); err != nil {
		return err
	}
	for _, s := range row[3:] {
		if err := b.job(s); err != nil {
			return err
		}
		b.p.Succ[row[0]-1] = append(b.p.Succ[row[0]-1], s-1)
	}
	return nil
}

// work reads: job, mode, duration, units of each resource.
func (b *smReader) work(row []int32) *fault.Fault {
	if len(row) < 3 {
		return fault.New(fault.Invalid, "the row holds no job, mode and duration")
	}
	if err := b.job(row[0]); err != nil {
		return err
	}
	j := row[0] - 1
	if b.p.Demand[j] != nil {
		return fault.New(fault.Invalid, "job %d has a second mode; only one is read", row[0])
	}
	b.p.Duration[j], b.p.Demand[j] = row[2], row[3:]
	b.times++
	return nil
}

func (b *smReader) problem() (project.Problem, error) {
	if b.jobs == 0 || b.times != b.jobs {
		return project.Problem{}, fault.New(fault.Invalid, "the file has durations of %d jobs out of %d", b.times, b.jobs)
	}
	return b.p, project.Validate(b.p)
}

// numbers are the fields of a line when all are whole numbers, else nil.
func numbers(line string) []int32 {
	var row []int32
	for f := range strings.FieldsSeq(line) {
		n, err := strconv.ParseInt(f, 10, 32)
		if err != nil {
			return nil
		}
		row = append(row, int32(n))
	}
	return row
}
