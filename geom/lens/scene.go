package lens

import (
	"fmt"
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Mark is a point of a reference: where it is in the picture, in pixels, and
// where it is in truth, in mm of its patch's own drawing.
type Mark struct{ At, Is geom.Point }

// Scene is what is marked in a photo.
type Scene struct {
	Width, Height float64 // of the picture, in pixels
	Patches       [][]Mark
	Lines         [][]geom.Point // points along lines that are straight in truth, in pixels
	SquareOn      bool           // taken square on: one stick of two marks will do
	Wide          bool           // a wide-angle lens: its bend may be large
	Noise         float64        // of a tap as judged, a standard deviation in pixels; 0 is Usual
	Tape          float64        // how far a point of a patch may be off, a standard deviation in mm
}

// Limits of what is marked.
const (
	mostPatches = 12
	mostMarks   = 400
	mostLines   = 20
	inLine      = 0.03 // height of a triangle over its longest side: less is a line
)

// Usual is the noise of a tap under the magnifier, as judged: a pixel, and in
// larger pictures a 2500th of the longer edge.
func Usual(width, height float64) float64 { return max(1, max(width, height)/2500) }

// Rectangle is a reference of four corners, marked anticlockwise as seen, from
// the lower left one.
func Rectangle(corners [4]geom.Point, width, height float64) []Mark {
	return []Mark{{corners[0], geom.Point{}}, {corners[1], geom.Point{X: width}}, {corners[2], geom.Point{X: width, Y: height}}, {corners[3], geom.Point{Y: height}}}
}

// Stick is a reference of two ends, with the picture's own up.
func Stick(from, to geom.Point, length float64) []Mark {
	along := geom.Point{X: to.X - from.X, Y: from.Y - to.Y}
	return []Mark{{from, geom.Point{}}, {to, along.Scale(length / max(math.Hypot(along.X, along.Y), 1e-9))}}
}

func invalid(format string, args ...any) *fault.Fault {
	return fault.New(fault.Invalid, format, args...)
}

// check says what is wrong with a scene before anything is worked out.
func (s Scene) check() error {
	if !(s.Width >= 16 && s.Height >= 16 && max(s.Width, s.Height) <= 1e5) {
		return invalid("the picture is %g by %g pixels", s.Width, s.Height)
	}
	if !(s.Noise >= 0 && s.Noise < max(s.Width, s.Height)/10 && s.Tape >= 0 && s.Tape < 1e4) {
		return invalid("the noise of a tap, or the error of the tape, is out of range")
	}
	if len(s.Patches) == 0 || len(s.Patches) > mostPatches || len(s.Lines) > mostLines {
		return invalid("there are %d references and %d straight lines: one to %d, and up to %d, can be used", len(s.Patches), len(s.Lines), mostPatches, mostLines)
	}
	marks := 0
	for i, p := range s.Patches {
		marks += len(p)
		if err := s.checkPatch(p, i == 0); err != nil {
			return fault.Within(err, patchName(i, len(s.Patches)))
		}
	}
	for i, l := range s.Lines {
		marks += len(l)
		if err := s.checkLine(l); err != nil {
			return fault.Within(err, fmt.Sprintf("straight line %d", i+1))
		}
	}
	if marks > mostMarks {
		return fault.New(fault.TooLarge, "%d points are marked, at most %d can be used", marks, mostMarks)
	}
	return nil
}

func patchName(i, of int) string {
	if of == 1 {
		return "reference"
	}
	return fmt.Sprintf("reference %d", i+1)
}

func (s Scene) holds(p geom.Point) bool {
	return p.X >= -1 && p.Y >= -1 && p.X <= s.Width+1 && p.Y <= s.Height+1
}

func (s Scene) checkPatch(marks []Mark, first bool) error {
	for i, m := range marks {
		if !s.holds(m.At) {
			return invalid("it lies outside the picture, at %.0f, %.0f", m.At.X, m.At.Y).At(markName(i))
		}
		if !(math.Abs(m.Is.X) <= 1e6 && math.Abs(m.Is.Y) <= 1e6) {
			return invalid("its place %g, %g mm is out of range", m.Is.X, m.Is.Y).At(markName(i))
		}
		for k, o := range marks[:i] {
			if m.At.Distance(o.At) < 2 || m.Is.Distance(o.Is) < 0.1 {
				return invalid("it is in the same place as mark %d", k+1).At(markName(i))
			}
		}
	}
	need := 4
	if s.SquareOn || !first {
		need = 2
	}
	if len(marks) < need {
		return invalid("it has %d marks, %d or more are needed", len(marks), need).WithHint("With one stick only, take the photo square on and say so.")
	}
	if len(marks) == 4 && need == 4 {
		return checkFour(marks)
	}
	return nil
}

func markName(i int) string { return fmt.Sprintf("mark %d", i+1) }

// checkFour refuses three marks on a line, since nothing is known across it, and
// marks in another order than the reference has them: seen from above, every
// three of them turn the same way in the picture.
func checkFour(m []Mark) error {
	for skip := range 4 {
		var at, is []geom.Point
		var names []any
		for i := range 4 {
			if i != skip {
				at, is, names = append(at, m[i].At), append(is, m[i].Is), append(names, i+1)
			}
		}
		if flat(at) || flat(is) {
			return invalid("marks %d, %d and %d lie nearly on one line", names...).
				WithHint("Four marks must span an area, no three on a line: the corners of a rectangle do.")
		}
		if (turns(at) < 0) != (turns(is) > 0) { // y is down in the picture
			return swapped("")
		}
	}
	return nil
}

// flat says whether the points of a triangle lie nearly on a line.
func flat(p []geom.Point) bool {
	long := max(p[0].Distance(p[1]), p[1].Distance(p[2]), p[2].Distance(p[0]))
	return math.Abs(turns(p)) < inLine*long*long
}

// turns is twice the area of a triangle, positive where it runs anticlockwise.
func turns(p []geom.Point) float64 { return p[1].Sub(p[0]).Cross(p[2].Sub(p[0])) }

func (s Scene) checkLine(l []geom.Point) error {
	if len(l) < 3 {
		return invalid("it has %d points: three or more show whether it bends", len(l))
	}
	long := 0.0
	for i, p := range l {
		if !s.holds(p) {
			return invalid("it lies outside the picture, at %.0f, %.0f", p.X, p.Y).At(fmt.Sprintf("point %d", i+1))
		}
		for _, q := range l[:i] {
			long = max(long, p.Distance(q))
		}
	}
	if long < max(s.Width, s.Height)/8 {
		return invalid("it is only %.0f pixels long: too short to show a bend", long).WithHint("Mark a line that runs across much of the picture, such as the edge of the table.")
	}
	return nil
}
