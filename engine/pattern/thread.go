package pattern

import (
	"fmt"
	"math"

	"fettle/figure"
)

// Row is a row of stitches whose thread is asked for.
type Row struct {
	Length Given // mm of seam
	Rows   Given // side by side; 1
	Pitch  Given // mm between stitches; 4
	Stack  Given // mm of all that is sewn through
	Waste  Given // ends, tension, breaks, as a part; 0.15
	Bobbin Given // metres a full bobbin holds; without it bobbins are not counted
	Chain  bool  // a chain stitch; else a lockstitch
	Seen   bool  // no join may show
}

var (
	askLength = asked{name: "seam length", unit: "mm", low: 0, high: 1e7, why: "measure the sewn line"}
	askRows   = asked{name: "rows", whole: true, low: 1, high: 20, habit: 1, has: true, why: "one row"}
	askPitch  = asked{name: "stitch pitch", unit: "mm", low: 0.5, high: 30, habit: 4, has: true, why: "3.2–4.2 mm in leather and vinyl, 4–6 mm on top; closer perforates"}
	askStack  = asked{name: "stack", unit: "mm", low: 0.1, high: 60, why: "press all that is sewn through together and measure it"}
	askWaste  = asked{name: "waste", low: 0, high: 1, habit: 0.15, has: true, why: "10–15 % for ends and breaks"}
)

// ThreadRate returns the metres of thread in a metre of one row. A lockstitch
// runs along the seam above and below and once down and up through the stack at
// every stitch, half of it off the bobbin; a chain stitch runs along it four
// times, two of them the looper's.
func (r Row) ThreadRate() (Amount, error) {
	var s sum
	pitch, stack := s.take(r.Pitch, askPitch), s.take(r.Stack, askStack)
	along, name := 2.0, "lockstitch"
	if r.Chain {
		along, name = 4, "chain stitch"
	}
	v := along + 2*stack/pitch
	return s.is("thread in a "+name, v, "m/m", 1, fmt.Sprintf("%g + 2 × stack ÷ pitch", along), fmt.Sprintf("%g + 2 × %s ÷ %s", along, num(stack, 2), num(pitch, 2)))
}

// Thread is what a row takes.
type Thread struct {
	Total   Amount  `json:"total"`             // metres to have, waste included
	Needle  float64 `json:"needle_m"`          // of them on the spool
	Bobbin  float64 `json:"bobbin_m"`          // of them on bobbins or the looper
	Bobbins *Amount `json:"bobbins,omitempty"` // full ones; nil where nobody knows what one holds
	Joins   bool    `json:"joins,omitempty"`   // a seen row outruns one bobbin
}

// Thread returns the thread of a row, with its waste, and the bobbins: for a
// row that is seen, what is on the bobbin must reach from end to end.
func (r Row) Thread() (Thread, error) {
	rate, err := r.ThreadRate()
	if err != nil {
		return Thread{}, err
	}
	var s sum
	long, rows, waste := s.take(r.Length, askLength), s.take(r.Rows, askRows), s.part(r.Waste, askWaste)
	s.worked("thread in a metre", rate)
	v := long / 1000 * rows * rate.Value * (1 + waste)
	total, err := s.is("thread", v, "m", 1, "length × rows × thread in a metre × (1 + waste)",
		fmt.Sprintf("%s m × %g × %s × %s", num(long/1000, 3), rows, num(rate.Value, 2), num(1+waste, 3)))
	if err != nil {
		return Thread{}, err
	}
	t := Thread{Total: total, Bobbin: v / 2}
	if r.Chain {
		t.Bobbin = v * 2 / rate.Value
	}
	t.Needle = v - t.Bobbin
	return t, r.bobbins(&t, long*rate.Value/2000*(1+waste))
}

// bobbins counts them; under is the metres that one row wants on its bobbin.
func (r Row) bobbins(t *Thread, under float64) error {
	if r.Bobbin == (Given{}) || r.Chain {
		return nil
	}
	var s sum
	full := s.take(r.Bobbin, asked{name: "a full bobbin", unit: "m", low: 0.5, high: 2000, why: "wind one and weigh it, or read its sheet"})
	s.inputs = append(s.inputs, figure.Input{Name: "thread below", Value: num(t.Bobbin, 2) + " m", Source: figure.Worked, Note: "half of " + t.Total.Working.Text})
	n := math.Ceil(t.Bobbin/full - 1e-9)
	t.Joins = r.Seen && under > full
	a, err := s.is("bobbins", n, "", 0, "half the thread ÷ a full bobbin, rounded up", fmt.Sprintf("%s ÷ %s, rounded up", num(t.Bobbin, 1), num(full, 1)))
	if err != nil {
		return err
	}
	switch {
	case t.Joins:
		a = a.careful(fmt.Sprintf("One row wants %s m on its bobbin, which holds %s m: a join would show. Wind a larger bobbin, or end the row at a cross seam.", num(under, 1), num(full, 1)))
	case r.Seen:
		a = a.careful(fmt.Sprintf("Begin each row with %s m or more on the bobbin: no join in a row that is seen, and a hole in leather stays.", num(under, 1)))
	}
	t.Bobbins = &a
	return nil
}
