package pattern

import (
	"math"

	"fettle/fault"
	"fettle/figure"
)

// ThreadSize is a size of bonded thread and the needles that carry it.
type ThreadSize struct {
	Size   string `json:"size"`
	Tex    int    `json:"tex"`    // g of 1000 m
	Needle [2]int `json:"needle"` // metric, from and to
}

// ThreadSizes returns the usual sizes, finest first. Leather points for hide.
func ThreadSizes() []ThreadSize {
	return []ThreadSize{
		{"69", 70, [2]int{90, 110}}, {"92", 90, [2]int{100, 110}}, {"138", 135, [2]int{125, 150}},
		{"207", 210, [2]int{160, 180}}, {"277", 270, [2]int{200, 200}},
	}
}

// SheetRow is a line of the stitch sheet that lies at the machine.
type SheetRow struct {
	Step      int     `json:"step"` // index into the order's steps
	Act       Act     `json:"act"`
	Seam      string  `json:"seam"` // or the piping that is made
	Name      string  `json:"name"`
	Kind      Kind    `json:"kind"`
	Rows      int     `json:"rows"`
	Length    float64 `json:"length_mm"` // of one row
	Pitch     float64 `json:"pitch_mm"`
	Thread    string  `json:"thread,omitempty"`
	Needle    string  `json:"needle,omitempty"`
	Allowance float64 `json:"allowance_mm"` // of side A where it starts; rows on top: of the seam below
	TopAt     float64 `json:"top_at_mm,omitempty"`
	Stitches  int     `json:"stitches"`
	Takes     *Thread `json:"takes,omitempty"` // nil where the stack is not measured
}

// StitchSheet returns the rows of an order's steps that are sewn along seams,
// in order; a cord is covered for all seams that take it in, sewn like the
// first of them. Bobbin is the metres that a full bobbin holds.
func (s Set) StitchSheet(o Order, bobbin Given) ([]SheetRow, error) {
	var out []SheetRow
	for i, st := range o.Steps {
		if st.Act == SewPleats || st.Act == SewMotif {
			continue
		}
		covered := 0.0
		first := -1
		for k, m := range s.Seams {
			if m.ID != st.Of && (st.Act != MakePiping || m.Piping != st.Of) {
				continue
			}
			a, _, err := s.sides(m)
			if err != nil {
				return nil, err
			}
			covered += a.length()
			if first < 0 {
				first = k
			}
		}
		if first < 0 {
			return nil, fault.New(fault.Invalid, "the order has a step of %q, which no seam of the set is", st.Of).At("order")
		}
		r, err := s.sheetRow(s.Seams[first], i, st.Act, covered, bobbin)
		if err != nil {
			return nil, fault.Within(err, "seam "+s.Seams[first].ID)
		}
		if st.Act == MakePiping {
			r.Seam, r.Name = st.Of, st.Name
		}
		out = append(out, r)
	}
	return out, nil
}

func (s Set) sheetRow(m Seam, step int, act Act, covered float64, bobbin Given) (SheetRow, error) {
	a, b, err := s.sides(m)
	if err != nil {
		return SheetRow{}, err
	}
	first := s.piece(m.A[0].Piece)
	r := SheetRow{Step: step, Act: act, Seam: m.ID, Name: m.Name, Kind: m.Kind, Rows: 1, Length: max(a.length(), b.length()),
		Allowance: first.Edges[first.edge(m.A[0].Edge)].Allowed()}
	if act == TakePiping || act == MakePiping {
		r.Length = covered
	}
	how, habit := m.Sewing, askPitch.habit
	if act == SewTop {
		how, habit = m.top(), 5
		r.TopAt, r.Rows = m.TopDistance()
	}
	r.Pitch, r.Thread, r.Needle = how.Pitch, how.Thread, how.Needle
	if r.Pitch == 0 {
		r.Pitch = habit
	}
	if !(r.Pitch >= askPitch.low && r.Pitch <= askPitch.high) {
		return r, fault.New(fault.Invalid, "a stitch every %g mm", r.Pitch).At("stitch pitch").WithHint(askPitch.why)
	}
	if r.Needle == "" {
		r.Needle = needleOf(r.Thread)
	}
	r.Stitches = r.Rows * int(math.Ceil(r.Length/r.Pitch-1e-9))
	if how.Stack == 0 {
		return r, nil
	}
	t, err := Row{Length: Given{Value: r.Length, Source: figure.Worked, Note: "the sewn line of seam " + m.ID, Link: "seam/" + m.ID}, Rows: Given{Value: float64(r.Rows)},
		Pitch: Given{Value: r.Pitch}, Stack: Given{Value: how.Stack, Source: figure.Measured}, Bobbin: bobbin, Chain: how.Chain, Seen: act == SewTop}.Thread()
	r.Takes = &t
	return r, err
}

// top is how the rows on top are sewn: what is not said of them is as below.
func (s Seam) top() Sewing {
	t := s.Top
	if t.Thread == "" {
		t.Thread, t.Needle = s.Sewing.Thread, s.Sewing.Needle
	}
	if t.Stack == 0 {
		t.Stack = s.Sewing.Stack
	}
	return t
}

func needleOf(thread string) string {
	for _, t := range ThreadSizes() {
		if t.Size == thread {
			if t.Needle[0] == t.Needle[1] {
				return num(float64(t.Needle[0]), 0)
			}
			return num(float64(t.Needle[0]), 0) + "–" + num(float64(t.Needle[1]), 0)
		}
	}
	return ""
}
