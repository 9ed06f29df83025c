package pattern

import (
	"math"
	"strconv"

	"fettle/fault"
	"fettle/figure"
)

// Given is one number that goes into a sum, and where it came from. The zero
// Given asks for the trade's default where there is one; a 0 that is meant has
// a source.
type Given struct {
	Value  float64       `json:"value"`
	Source figure.Source `json:"source,omitempty"` // empty where there is a value: decided
	Note   string        `json:"note,omitempty"`
	Link   string        `json:"link,omitempty"`
}

// Amount is a number and its working.
type Amount struct {
	Value   float64       `json:"value"`
	Unit    string        `json:"unit"`
	Working figure.Figure `json:"working"`
}

// asked is one input of a sum: its limits and how it is told.
type asked struct {
	name, unit string
	low, high  float64
	habit      float64 // the trade's default
	has        bool    // there is one
	whole      bool    // it is a count
	why        string  // of the default, and the hint where the number cannot be
}

// sum gathers the inputs of one figure; its first fault ends it.
type sum struct {
	inputs []figure.Input
	err    error
}

// take reads one number into the working.
func (s *sum) take(g Given, a asked) float64 {
	if s.err != nil {
		return 0
	}
	said := g.Source != "" || g.Value != 0
	switch {
	case !said && a.has:
		g = Given{Value: a.habit, Source: figure.TradeDefault, Note: a.why}
	case !said:
		s.err = fault.New(fault.Invalid, "it is not given").At(a.name).WithHint(a.why)
		return 0
	case g.Source == "":
		g.Source = figure.Decided
	}
	hint := ""
	switch {
	case !(g.Value >= a.low && g.Value <= a.high):
		hint = "between " + num(a.low, 4) + " and " + withUnit(num(a.high, 4), a.unit)
	case a.whole && g.Value != math.Trunc(g.Value):
		hint = "a whole number"
	}
	if hint != "" {
		s.err = fault.New(fault.Invalid, "%s", withUnit(num(g.Value, 4), a.unit)).At(a.name).WithHint(hint)
		return 0
	}
	s.inputs = append(s.inputs, figure.Input{Name: a.name, Value: withUnit(num(g.Value, 4), a.unit), Source: g.Source, Note: g.Note, Link: g.Link})
	return g.Value
}

// part is take for a share: 0.05 is told as 5 %.
func (s *sum) part(g Given, a asked) float64 {
	v := s.take(g, a)
	if s.err == nil {
		s.inputs[len(s.inputs)-1].Value = percent(v)
	}
	return v
}

// worked puts in a number that another figure has come to.
func (s *sum) worked(name string, a Amount) float64 {
	if s.err == nil {
		s.inputs = append(s.inputs, figure.Input{Name: name, Value: a.Working.Text, Source: figure.Worked, Note: a.Working.With})
	}
	return a.Value
}

// is ends a sum: the value in a unit, told with so many decimals.
func (s *sum) is(name string, value float64, unit string, decimals int, formula, with string) (Amount, error) {
	if s.err != nil {
		return Amount{}, fault.Within(s.err, name)
	}
	text := withUnit(strconv.FormatFloat(value, 'f', decimals, 64), unit)
	return Amount{value, unit, figure.Figure{Name: name, Text: text, Formula: formula, With: with + " = " + text, Inputs: s.inputs}}, nil
}

// careful returns the amount with a caution.
func (a Amount) careful(words string) Amount {
	a.Working.Caution = words
	return a
}

// num writes a number with at most so many decimals.
func num(v float64, decimals int) string {
	k := math.Pow10(decimals)
	return strconv.FormatFloat(math.Round(v*k)/k, 'f', -1, 64)
}

func percent(v float64) string { return num(100*v, 2) + " %" }

func withUnit(text, unit string) string {
	if unit == "" {
		return text
	}
	return text + " " + unit
}
