package metal

import (
	"fmt"
	"math"
	"math/bits"
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/geom"
	"fettle/unit"
)

// Trade defaults of a bench folder, where the shop has not said what it folds
// on.
const (
	brakeWidth = 1250 * unit.Millimetre
	brakeGauge = 1500 * unit.Micrometre
	brakeLeast = 8 * unit.Millimetre
	brakeNose  = 35 * unit.Millimetre
	brakeSlope = 45
)

// leafTurns is how far a bend is turned in the brake before it lies on the face
// of the nose, in degrees; the rest is pressed.
func leafTurns(k build.Brake) float64 { return 180 - k.Slope }

// BrakeOf is what sheet is folded on, with the trade's defaults in place of
// what is not stated, and where each number comes from.
func BrakeOf(b *build.Build) (build.Brake, []figure.Input) {
	k := b.Brake
	if k.Name == "" {
		k.Name = "bench folder"
	}
	var from []figure.Input
	say := func(name, value string, stated bool) {
		in := figure.Input{Name: name, Value: value, Source: figure.TradeDefault, Note: "type in what yours takes", Link: "metal/folds"}
		if stated {
			in.Source, in.Note = figure.Measured, k.Name
		}
		from = append(from, in)
	}
	length := func(name string, to *unit.Length, usual unit.Length) {
		stated := *to != 0
		if !stated {
			*to = usual
		}
		say(name, mm2(to.Mm()), stated)
	}
	length("longest bend", &k.Width, brakeWidth)
	length("thickest sheet", &k.Gauge, brakeGauge)
	length("least flange", &k.Least, brakeLeast)
	length("nose and bed reach back", &k.Nose, brakeNose)
	stated := k.Slope != 0
	if !stated {
		k.Slope = brakeSlope
	}
	say("face of the nose", fmt.Sprintf("%g°", k.Slope), stated)
	return k, from
}

// FoldStep is one bend in the order of folding.
type FoldStep struct {
	Bend     int      // from 0
	Last     bool     // the part of the last flange is clamped, that of the first swings
	Over     bool     // the sheet is turned over first
	Press    bool     // the leaf turns it as far as the nose lets it, then it is pressed
	Troubles []string // what would hit, or is too short
}

// dearest is more than all turnings over and habits cost: what hits weighs
// above all else.
const dearest = 1_000_000

// FoldOrder finds an order in which nothing hits the brake, or hits least; of
// such orders the one that turns the sheet over least, and then folds from the
// edges inwards. Each bend is held to the section as it is by then: what lies
// above the sheet behind the bend line against the nose, what hangs below it
// against the bed.
func FoldOrder(b *build.Build, blank build.Blank) []FoldStep {
	u := Unfold(b, blank)
	brake, _ := BrakeOf(b)
	n := len(u.Lines)
	type state struct {
		cost int
		step FoldStep
		from int // the state before: bends made, twice, and which way up
	}
	best := make([]state, 2<<n)
	for i := range best {
		best[i].cost = math.MaxInt
	}
	best[0].cost, best[1].cost = 0, math.MaxInt
	if n > 0 && u.Lines[0].Bend.Down && allDown(u.Lines) {
		best[0].cost, best[1].cost = 1, 0
	}
	for s := range best {
		mask, down := s>>1, s&1 == 1
		if best[s].cost == math.MaxInt {
			continue
		}
		for i := range n {
			if mask&(1<<i) != 0 {
				continue
			}
			step := stepOf(blank, u, brake, mask, i)
			step.Over = u.Lines[i].Bend.Down != down
			cost := best[s].cost + dearest*len(step.Troubles) + (n-bits.OnesCount(uint(mask)))*min(i, n-1-i)
			if step.Over {
				cost += 1000
			}
			to := (mask | 1<<i) << 1
			if u.Lines[i].Bend.Down {
				to |= 1
			}
			if cost < best[to].cost {
				best[to] = state{cost: cost, step: step, from: s}
			}
		}
	}
	at := len(best) - 2
	if best[at+1].cost < best[at].cost {
		at++
	}
	var steps []FoldStep
	for at>>1 != 0 {
		steps = append(steps, best[at].step)
		at = best[at].from
	}
	slices.Reverse(steps)
	return steps
}

func allDown(lines []BendLine) bool {
	return !slices.ContainsFunc(lines, func(l BendLine) bool { return !l.Bend.Down })
}

// stepOf makes one bend with others made before it, clamped on the side where
// less is in the way; of two alike, on the longer one.
func stepOf(blank build.Blank, u Unfolded, brake build.Brake, mask, i int) FoldStep {
	first := FoldStep{Bend: i, Troubles: troubles(blank, u, brake, mask, i, false)}
	last := FoldStep{Bend: i, Last: true, Troubles: troubles(blank, u, brake, mask, i, true)}
	step := first
	if len(last.Troubles) < len(first.Troubles) || len(last.Troubles) == len(first.Troubles) && u.Size-u.Lines[i].To > u.Lines[i].From {
		step = last
	}
	step.Press = u.Lines[i].Bend.Angle > leafTurns(brake)
	return step
}

// troubles are what is in the way of bend i when the side of the last flange,
// or of the first, is clamped.
func troubles(blank build.Blank, u Unfolded, brake build.Brake, mask, i int, last bool) []string {
	var list []string
	back, free := flatRun(u, mask, i, -1), flatRun(u, mask, i, 1)
	if last {
		back, free = free, back
	}
	out := u.Lines[i].Bend.Setback(blank.Gauge)
	if free+out < brake.Least.Mm() {
		list = append(list, fmt.Sprintf("the flange that swings has %.1f mm, the brake takes no less than %.0f mm", free+out, brake.Least.Mm()))
	}
	if back < brake.Least.Mm() {
		list = append(list, fmt.Sprintf("the nose has only %.1f mm to hold on", back))
	}
	made := make([]float64, len(u.Lines))
	for j, l := range u.Lines {
		if mask&(1<<j) != 0 || j == i {
			made[j] = min(l.Bend.Angle, shut)
		}
	}
	made[i] = min(made[i], leafTurns(brake))
	nose, bed := hits(blank, u, brake, made, i, last)
	if nose {
		list = append(list, "a flange that is up already would hit the nose")
	}
	if bed {
		list = append(list, "a flange that is down already would hit the bed")
	}
	return list
}

// flatRun is how much lies straight beside bend i, up to the next bend that is
// made or the edge, in mm.
func flatRun(u Unfolded, mask, i, way int) float64 {
	for j := i + way; j >= 0 && j < len(u.Lines); j += way {
		if mask&(1<<j) == 0 {
			continue
		}
		if way < 0 {
			return u.Lines[i].From - u.Lines[j].To
		}
		return u.Lines[j].From - u.Lines[i].To
	}
	if way < 0 {
		return u.Lines[i].From
	}
	return u.Size - u.Lines[i].To
}

// hits tells whether the part, with bend i made in the brake, runs into the
// nose above the sheet or the bed below it. The part is laid so that the bend
// begins at the origin, what is clamped lies to the left along x, and the bend
// goes up.
func hits(blank build.Blank, u Unfolded, brake build.Brake, made []float64, i int, last bool) (nose, bed bool) {
	s := sectionAt(blank, u, made)
	at, along := s.Flanges[i].To, s.Flanges[i].To.Sub(s.Flanges[i].From)
	if last {
		at, along = s.Flanges[i+1].From, s.Flanges[i+1].From.Sub(s.Flanges[i+1].To)
	}
	if d := math.Hypot(along.X, along.Y); d > 0 {
		along = along.Scale(1 / d)
	} else {
		return false, false
	}
	// A flange that is turned about and one that bends down each see the other
	// face of the sheet upwards.
	up := 1.0
	if u.Lines[i].Bend.Down != last {
		up = -1
	}
	half, near := blank.Gauge.Mm()/2, 0.05
	reach, slope := brake.Nose.Mm(), math.Tan(brake.Slope*math.Pi/180)
	for _, face := range [][]geom.Point{s.Upper, s.Lower} {
		for j := range face {
			for _, p := range between(face, j) {
				d := p.Sub(at)
				x := float64(d.X*along.X) + float64(d.Y*along.Y)
				y := up * (float64(d.Y*along.X) - float64(d.X*along.Y))
				if x > -near || x < -reach {
					continue
				}
				nose = nose || y > half+near && y-half < -x*slope
				bed = bed || y < -half-near
			}
		}
	}
	return nose, bed
}

// between are points along one piece of a face, a millimetre or so apart.
func between(face []geom.Point, j int) []geom.Point {
	if j+1 == len(face) {
		return face[j:]
	}
	a, b := face[j], face[j+1]
	n := min(int(a.Distance(b))+1, 200)
	list := make([]geom.Point, n)
	for k := range n {
		t := float64(k) / float64(n)
		list[k] = geom.Point{X: a.X + float64(t*(b.X-a.X)), Y: a.Y + float64(t*(b.Y-a.Y))}
	}
	return list
}
