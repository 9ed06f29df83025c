package surface

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"fettle/geom/mesh"
)

// frame is the size of a drawing in its own units; room is left for labels.
const (
	frame = 1000.0
	room  = 70.0
)

// Lights is how many tones of light a solid has.
const Lights = 4

// light falls from the upper left over the shoulder of who looks.
var light = mesh.Vec{X: -0.42, Y: 0.48, Z: 0.77}

// eye turns a place into right, up and towards who looks.
func (v View) eye() func(mesh.Vec) mesh.Vec {
	st, ct := math.Sincos(v.Turn * math.Pi / 180)
	sp, cp := math.Sincos(v.Tip * math.Pi / 180)
	return func(p mesh.Vec) mesh.Vec {
		x, y := ct*p.X+st*p.Y, ct*p.Y-st*p.X
		return mesh.Vec{X: x, Y: cp*p.Z + sp*y, Z: sp*p.Z - cp*y}
	}
}

// run are faces that follow each other from far to near and look the same.
type run struct {
	Class Class
	Light int
	D     string
}

// hatched tells whether the run has a hatching over its tone.
func (r run) hatched() bool { return r.Class != Lies }

func (r run) tone() string {
	return "sf-" + strconv.Itoa(int(r.Class)) + " sf-light-" + strconv.Itoa(r.Light)
}

func (r run) hatch() string { return hatchOf(r.Class) }

func hatchOf(c Class) string { return "url(#sf-h-" + strconv.Itoa(int(c)) + ")" }

// seen is a solid as it is drawn: y down, within the frame.
type seen struct {
	at    []mesh.Vec // right, down, towards
	high  float64
	Runs  []run
	Edges string // its rim
	Cuts  []string
	Spots []label
	Marks []label
}

// label is a text at a place, with a leader line from it.
type label struct {
	X, Y, ToX, ToY float64
	Text           string
}

func (s seen) viewBox() string { return box(s.high) }

func box(high float64) string { return "0 0 " + strconv.Itoa(int(frame)) + " " + short(high) }

// see projects a solid and sorts its faces from far to near.
func see(s Solid, v View) seen {
	eye := v.eye()
	list := make([]mesh.Vec, len(s.Points))
	for i, p := range s.Points {
		list[i] = eye(p)
	}
	out := seen{at: list, high: fit(list)}
	order, depth := make([]int, len(s.Faces)), make([]float64, len(s.Faces))
	for i, f := range s.Faces {
		order[i], depth[i] = i, list[f[0]].Z+list[f[1]].Z+list[f[2]].Z
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(depth[a], depth[b]) })
	var d []byte
	for n, i := range order {
		r := run{Light: shade(list, s.Faces[i])}
		if s.Class != nil {
			r.Class = s.Class[i]
		}
		if last := len(out.Runs) - 1; n == 0 || out.Runs[last].Class != r.Class || out.Runs[last].Light != r.Light {
			if n > 0 {
				out.Runs[last].D = string(d)
			}
			out.Runs, d = append(out.Runs, r), d[:0]
		}
		d = triangle(d, list, s.Faces[i])
	}
	if len(out.Runs) > 0 {
		out.Runs[len(out.Runs)-1].D = string(d)
	}
	out.Edges = rim(list, s.Faces)
	for _, c := range s.Cuts {
		out.Cuts = append(out.Cuts, line(list, c))
	}
	for _, at := range s.Spots {
		out.Spots = append(out.Spots, lead(middleOf(list, s.Faces[at.Face]), at.Label, out.high))
	}
	for _, m := range s.Marks {
		out.Marks = append(out.Marks, label{X: list[m].X, Y: list[m].Y, Text: strconv.Itoa(int(m))})
	}
	return out
}

// fit brings places into the frame, y down, and returns how high it must be.
func fit(list []mesh.Vec) (high float64) {
	low, top := mesh.Vec{X: math.Inf(1), Y: math.Inf(1)}, mesh.Vec{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, p := range list {
		low, top = mesh.Vec{X: min(low.X, p.X), Y: min(low.Y, p.Y)}, mesh.Vec{X: max(top.X, p.X), Y: max(top.Y, p.Y)}
	}
	w, h := top.X-low.X, top.Y-low.Y
	k := (frame - 2*room) / max(w, h, 1e-9)
	for i, p := range list {
		list[i] = mesh.Vec{X: room + (p.X-low.X)*k + (frame-2*room-w*k)/2, Y: room + (top.Y-p.Y)*k, Z: p.Z * k}
	}
	return max(h*k, 160) + 2*room
}

// shade is the tone of a face: 0 is full light. Both sides of a surface are seen.
func shade(at []mesh.Vec, f mesh.Face) int {
	a, b, c := at[f[0]], at[f[1]], at[f[2]]
	n := b.Sub(a).Cross(c.Sub(a))
	long := n.Length()
	if long == 0 {
		return 0
	}
	n.Y = -n.Y // y is down here
	lit := math.Abs(n.Dot(light)) / long
	return min(Lights-1, int((1-lit)*Lights*1.15))
}

func triangle(d []byte, at []mesh.Vec, f mesh.Face) []byte {
	for i, v := range f {
		d = append(d, "ML"[min(i, 1)])
		d = tenth(d, at[v].X)
		d = append(d, ' ')
		d = tenth(d, at[v].Y)
	}
	return append(d, 'Z')
}

// tenth writes a coordinate to the tenth of a unit.
func tenth(d []byte, v float64) []byte {
	return strconv.AppendFloat(d, math.Round(v*10)/10, 'f', -1, 64)
}

func short(v float64) string { return string(tenth(nil, v)) }

// rim are the edges that only one face has.
func rim(at []mesh.Vec, faces []mesh.Face) string {
	var d []byte
	for _, e := range Rim(faces) {
		d = stroke(d, at[e[0]], at[e[1]])
	}
	return string(d)
}

// Rim lists the edges that only one face has, in the order of the faces.
func Rim(faces []mesh.Face) [][2]int32 {
	count := make(map[[2]int32]int, 2*len(faces))
	key := func(a, b int32) [2]int32 { return [2]int32{min(a, b), max(a, b)} }
	for _, f := range faces {
		for i := range f {
			count[key(f[i], f[(i+1)%3])]++
		}
	}
	var list [][2]int32
	for _, f := range faces {
		for i := range f {
			if a, b := f[i], f[(i+1)%3]; count[key(a, b)] == 1 {
				list = append(list, [2]int32{a, b})
			}
		}
	}
	return list
}

func stroke(d []byte, a, b mesh.Vec) []byte {
	d = append(tenth(append(tenth(append(d, 'M'), a.X), ' '), a.Y), 'L')
	return tenth(append(tenth(d, b.X), ' '), b.Y)
}

func line(at []mesh.Vec, path []int32) string {
	var d []byte
	for i, v := range path {
		d = append(d, "ML"[min(i, 1)])
		d = tenth(append(tenth(d, at[v].X), ' '), at[v].Y)
	}
	return string(d)
}

func middleOf(at []mesh.Vec, f mesh.Face) mesh.Vec {
	return at[f[0]].Add(at[f[1]]).Add(at[f[2]]).Scale(1.0 / 3)
}

// lead puts a label on a leader line, towards the nearer side of the frame.
func lead(p mesh.Vec, text string, high float64) label {
	l := label{ToX: p.X, ToY: p.Y, X: p.X + 52, Y: p.Y - 40, Text: text}
	if p.X > frame/2 {
		l.X = p.X - 52
	}
	if p.Y < 90 {
		l.Y = min(p.Y+48, high-20)
	}
	return l
}

// laid is a flat pattern as it is drawn: one path a class, for nothing overlaps.
func laid(f Flat) seen {
	list := make([]mesh.Vec, len(f.Points))
	for i, p := range f.Points {
		list[i] = mesh.Vec{X: p.X, Y: p.Y}
	}
	for _, l := range f.Lines {
		list = append(list, mesh.Vec{X: l[0].X, Y: l[0].Y}, mesh.Vec{X: l[1].X, Y: l[1].Y})
	}
	out := seen{at: list, high: fit(list)}
	for i := len(f.Points); i < len(list); i += 2 {
		out.Cuts = append(out.Cuts, string(stroke(nil, list[i], list[i+1])))
	}
	var by [Classes][]byte
	for i, face := range f.Faces {
		c := Lies
		if f.Class != nil {
			c = f.Class[i]
		}
		by[c] = triangle(by[c], list, face)
	}
	for c, d := range by {
		if len(d) > 0 {
			out.Runs = append(out.Runs, run{Class: Class(c), D: string(d)})
		}
	}
	out.Edges = rim(list, f.Faces)
	for _, at := range f.Spots {
		out.Spots = append(out.Spots, lead(middleOf(list, f.Faces[at.Face]), at.Label, out.high))
	}
	return out
}

// line is the leader from the place to its flag.
func (l label) line() string {
	return string(stroke(nil, mesh.Vec{X: l.ToX, Y: l.ToY}, mesh.Vec{X: l.X, Y: l.Y}))
}

// Tone is the class of a shape of that class of strain in that light.
func Tone(class, light int) string { return run{Class: Class(class), Light: light}.tone() }
