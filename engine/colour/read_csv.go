package colour

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"

	"fettle/fault"
)

// ReadCSV reads wavelengths down the first column, nm, and a sample in each
// further one; the first row may name the samples. Cells are parted by tab,
// else semicolon, else comma; with tab or semicolon a decimal comma is read
// too. Lines that begin with # are left out. See docs/engine/colour.md for how
// steps of up to 20 nm come onto the grid.
func ReadCSV(r io.Reader, scale Scale) ([]Sample, error) {
	lines, err := text(r)
	if err != nil {
		return nil, err
	}
	return readCSV(lines, scale)
}

func readCSV(lines []string, scale Scale) ([]Sample, error) {
	rows, at, err := cells(lines)
	if err != nil {
		return nil, err
	}
	var list []curve
	for i, row := range rows {
		switch where := fmt.Sprintf("line %d", at[i]); {
		case i == 0:
			if list, err = heading(row, where); err != nil {
				return nil, err
			}
			if _, f := number(row[0]); f != nil {
				continue
			}
		case len(row) != len(list)+1:
			return nil, fault.New(fault.Invalid, "%d cells, the first row has %d", len(row), len(list)+1).At(where).
				WithHint("with a decimal comma, part the cells by semicolon or tab; a missing value is a gap and is not guessed at")
		}
		if err := addRow(list, row, at[i]); err != nil {
			return nil, err
		}
	}
	if len(list) > 0 && len(list[0].points) == 0 {
		return nil, fault.New(fault.Invalid, "there is no wavelength below the names").
			WithHint("wavelengths go down the first column, nm")
	}
	return samples(list, scale)
}

// cells returns the rows that hold anything, and their lines.
func cells(lines []string) (rows [][]string, at []int, err error) {
	c := csv.NewReader(strings.NewReader(strings.Join(lines, "\n")))
	c.Comma, c.Comment, c.FieldsPerRecord, c.TrimLeadingSpace = parting(lines), '#', -1, true
	if c.Comma == '\t' {
		c.TrimLeadingSpace = false // a tab is a space: an empty cell would vanish
	}
	for {
		row, err := c.Read()
		if errors.Is(err, io.EOF) {
			return rows, at, nil
		}
		if err != nil {
			return nil, nil, fault.New(fault.Invalid, "the file is no table: %v", err).WithHint("check the quotes")
		}
		if strings.TrimSpace(strings.Join(row, "")) == "" {
			continue
		}
		line, _ := c.FieldPos(0)
		rows, at = append(rows, row), append(at, line)
	}
}

// parting returns what parts the cells: by the first line that holds any.
func parting(lines []string) rune {
	for _, l := range lines {
		if strings.HasPrefix(l, "#") {
			continue
		}
		for _, mark := range "\t;," {
			if strings.ContainsRune(l, mark) {
				return mark
			}
		}
	}
	return ','
}

// heading returns a curve a column, named where the row is a heading.
func heading(row []string, where string) ([]curve, error) {
	if len(row) < 2 {
		return nil, fault.New(fault.Invalid, "there is only one column").At(where).
			WithHint("wavelengths go down the first column, a sample in each further one; part the cells by comma, semicolon or tab")
	}
	_, f := number(row[0])
	list := make([]curve, len(row)-1)
	wavelengths := 0
	for i := range list {
		list[i].name = fmt.Sprintf("column %d", i+2)
		cell := strings.TrimSpace(row[i+1])
		if f != nil && cell != "" {
			list[i].name = cell
		}
		if v, f := number(cell); f == nil && v >= 200 && v <= 2500 {
			wavelengths++
		}
	}
	if wavelengths > len(list)/2 && wavelengths > 5 {
		return nil, fault.New(fault.Invalid, "wavelengths run across the first row").At(where).
			WithHint("turn the table: wavelengths go down the first column, a sample in each further one")
	}
	return list, nil
}

func addRow(list []curve, row []string, line int) error {
	where := fmt.Sprintf("line %d", line)
	w, f := number(strings.TrimSuffix(strings.TrimSpace(row[0]), "nm"))
	if f != nil {
		return f.At(where + ", wavelength")
	}
	for i := range list {
		c := &list[i]
		v, f := number(row[i+1])
		if f != nil {
			if strings.TrimSpace(row[i+1]) == "" {
				f = fault.New(fault.Invalid, "a gap: there is no reflectance").WithHint("a gap is not guessed at: measure again")
			}
			return f.At(fmt.Sprintf("%s, %s, sample %.40q", where, nm(w), c.name))
		}
		c.points = append(c.points, point{w, v, line})
	}
	return nil
}
