package mesh

import (
	"fmt"
	"slices"
)

// RepairOptions say how far Repair may go. The zero value welds nothing and
// fills no hole.
type RepairOptions struct {
	Weld    bool    // points no further apart than Within become one, which also closes slits
	Within  float64 // 0: the same place only
	Longest float64 // rim of a hole that is filled, in the mesh's unit of length
}

// Repair is something that was put right, or found and left.
type Repair struct {
	What  Fix
	Count int
	Place Vec // the first of them
}

// Fix names a repair.
type Fix uint8

// What Repair does, in this order.
const (
	Welded       Fix = iota // points made one
	Degenerate              // faces with a corner named twice, taken out
	Duplicate               // faces that stood twice, taken out
	Needle                  // faces without height, their long edge turned
	TurnedOver              // faces that ran against the others
	InsideOut               // closed components turned outside out
	SheetsParted            // points added where more than two faces met at an edge or sheets touched at a tip
	HoleFilled              // holes closed
	HoleLeft                // holes that stay
	Unused                  // points that no face names, taken out
)

// fixes are sentences for one and for more.
var fixes = [...][2]string{
	Welded:       {"A point at the place of another was made one with it", "%d points at the place of others were made one with them"},
	Degenerate:   {"A face without three corners was taken out", "%d faces without three corners were taken out"},
	Duplicate:    {"A face that stood twice was taken out", "%d faces that stood twice were taken out"},
	Needle:       {"A face without height had its long edge turned", "%d faces without height had their long edge turned"},
	TurnedOver:   {"A face that ran against the others was turned over", "%d faces that ran against the others were turned over"},
	InsideOut:    {"A closed part was inside out and was turned", "%d closed parts were inside out and were turned"},
	SheetsParted: {"A point was added to part sheets that met there", "%d points were added to part sheets that met in an edge or a point"},
	HoleFilled:   {"A small hole was filled", "%d small holes were filled"},
	HoleLeft:     {"A hole stays open", "%d holes stay open"},
	Unused:       {"A point that no face names was taken out", "%d points that no face names were taken out"},
}

// String is a sentence with the count and the first place.
func (r Repair) String() string {
	where, p := "at", r.Place
	if r.Count > 1 {
		where = "the first at"
	}
	return fmt.Sprintf("%s, %s %.4g, %.4g, %.4g.", counted(fixes[r.What], r.Count), where, p.X, p.Y, p.Z)
}

// counted takes the sentence for one, or puts the number into that for more.
func counted(sentence [2]string, n int) string {
	if n == 1 {
		return sentence[0]
	}
	return fmt.Sprintf(sentence[1], n)
}

// Repair puts small faults right and says what it did. Source gives by new point
// the old one it came from, the first of those welded.
func (m Mesh) Repair(o RepairOptions) (repaired Mesh, source []int32, did []Repair) {
	r := &repairer{m: Mesh{slices.Clone(m.Points), slices.Clone(m.Faces)}, source: make([]int32, len(m.Points))}
	for v := range r.source {
		r.source[v] = int32(v)
	}
	if o.Weld {
		r.weld(o.Within)
	}
	r.dropFaces()
	r.turnNeedles()
	r.orient()
	r.partSheets()
	r.orient() // what is closed may show only now
	r.fillHoles(o.Longest)
	r.dropPoints()
	return r.m, r.source, r.did
}

// repairer is a mesh under way.
type repairer struct {
	m      Mesh
	source []int32
	did    []Repair
}

// note counts a repair, together with those of its kind before.
func (r *repairer) note(what Fix, count int, place func() Vec) {
	if count == 0 {
		return
	}
	for i := range r.did {
		if r.did[i].What == what {
			r.did[i].Count += count
			return
		}
	}
	r.did = append(r.did, Repair{what, count, place()})
}

func (r *repairer) weld(within float64) {
	welded, renamed := r.m.Weld(within)
	source, first := make([]int32, len(welded.Points)), None
	for v := len(renamed) - 1; v >= 0; v-- {
		source[renamed[v]] = int32(v)
	}
	for v, to := range renamed {
		if source[to] != int32(v) {
			first = int32(v)
			break
		}
	}
	r.note(Welded, len(r.m.Points)-len(welded.Points), func() Vec { return r.m.Points[first] })
	r.m, r.source = welded, source
}

// dropFaces takes out faces with a corner named twice, and all but the first of
// those with the same three corners.
func (r *repairer) dropFaces() {
	seen := make(map[Face]bool, len(r.m.Faces))
	var degenerate, duplicate []Face
	r.m.Faces = slices.DeleteFunc(r.m.Faces, func(f Face) bool {
		if f[0] == f[1] || f[1] == f[2] || f[2] == f[0] {
			degenerate = append(degenerate, f)
			return true
		}
		key := f
		slices.Sort(key[:])
		if seen[key] {
			duplicate = append(duplicate, f)
			return true
		}
		seen[key] = true
		return false
	})
	r.note(Degenerate, len(degenerate), func() Vec { return r.m.Points[degenerate[0][0]] })
	r.note(Duplicate, len(duplicate), func() Vec { return r.m.centre(duplicate[0]) })
}

func (m Mesh) centre(f Face) Vec {
	return m.Points[f[0]].Add(m.Points[f[1]]).Add(m.Points[f[2]]).Scale(1. / 3)
}

func (r *repairer) orient() {
	out, turned := r.m.Orient()
	r.note(TurnedOver, len(turned.Faces), func() Vec { return r.m.centre(r.m.Faces[turned.Faces[0]]) })
	r.note(InsideOut, turned.InsideOut, func() Vec { return turned.Place })
	r.m = out
}

// dropPoints takes out points out of use.
func (r *repairer) dropPoints() {
	renamed := make([]int32, len(r.m.Points))
	for v := range renamed {
		renamed[v] = None
	}
	for _, f := range r.m.Faces {
		for _, v := range f {
			renamed[v] = 0
		}
	}
	var kept, first []int32
	for v, use := range renamed {
		if use == None {
			first = append(first, int32(v))
			continue
		}
		renamed[v] = int32(len(kept))
		kept = append(kept, int32(v))
	}
	r.note(Unused, len(first), func() Vec { return r.m.Points[first[0]] })
	if len(first) == 0 {
		return
	}
	out := Mesh{Points: make([]Vec, len(kept)), Faces: r.m.rename(renamed)}
	source := make([]int32, len(kept))
	for i, v := range kept {
		out.Points[i], source[i] = r.m.Points[v], r.source[v]
	}
	r.m, r.source = out, source
}
