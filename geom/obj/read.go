package obj

import (
	"strconv"
	"strings"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/lines"
	"fettle/geom/mesh"
)

// silent are statements that change nothing of the surface.
const silent = " vn g o s usemtl mtllib usemap maplib lod bevel c_interp d_interp shadow_obj trace_obj "

// Read reads a surface. Errors are faults of kind Invalid or TooLarge that name
// the line.
func Read(data []byte, limits mesh.Limits) (mesh.Model, error) {
	if err := limits.Size(len(data)); err != nil {
		return mesh.Model{}, err
	}
	r := reader{Lines: lines.Of(string(data)), build: mesh.Builder{Limits: limits}}
	for r.Next() {
		r.join()
		if len(r.Words) == 0 {
			continue
		}
		if err := r.statement(); err != nil {
			return mesh.Model{}, r.Within(err)
		}
	}
	return r.build.Model(), nil
}

// reader is a file under way.
type reader struct {
	*lines.Lines
	build   mesh.Builder
	flat    []geom.Point
	corners []int64
	uv      []geom.Point
}

// join adds the lines that a backslash at the end says belong to this one.
func (r *reader) join() {
	for n := len(r.Words); n > 0 && strings.HasSuffix(r.Words[n-1], `\`); n = len(r.Words) {
		if r.Words[n-1] = strings.TrimSuffix(r.Words[n-1], `\`); r.Words[n-1] == "" {
			r.Words = r.Words[:n-1]
		}
		if r.Rest == "" {
			return
		}
		r.More()
	}
}

func (r *reader) statement() error {
	switch what := r.Words[0]; {
	case what == "v":
		var p [3]float64
		if err := r.Floats(1, p[:]); err != nil {
			return err
		}
		return r.build.Point(mesh.Vec{X: p[0], Y: p[1], Z: p[2]})
	case what == "vt":
		return r.flatPlace()
	case what == "f" || what == "fo":
		return r.face()
	case what[0] == '#' || strings.Contains(silent, " "+what+" "):
	case what == "l" || what == "p":
		r.build.Leave("lines and points")
	case what == "curv" || what == "curv2" || what == "surf":
		r.build.Leave("curves and curved patches")
	default:
		r.build.Leave("other statements")
	}
	return nil
}

func (r *reader) flatPlace() error {
	var p [2]float64
	if err := r.Floats(1, p[:min(2, max(1, len(r.Words)-1))]); err != nil {
		return err
	}
	if most := 3 * r.build.Limits.Standard().Points; len(r.flat) >= most {
		return fault.New(fault.TooLarge, "the file has more than %d flat places", most)
	}
	r.flat = append(r.flat, geom.Point{X: p[0], Y: p[1]})
	return nil
}

// face reads corners such as 3, 3/1, 3//2 or 3/1/2, negative ones counted back
// from the last point so far.
func (r *reader) face() error {
	r.corners, r.uv = r.corners[:0], r.uv[:0]
	for _, word := range r.Words[1:] {
		if word[0] == '#' {
			break
		}
		name, rest, _ := strings.Cut(word, "/")
		v, err := index(name, r.build.Points(), "point")
		if err != nil {
			return err
		}
		r.corners = append(r.corners, int64(v))
		if name, _, _ = strings.Cut(rest, "/"); name != "" {
			if v, err = index(name, len(r.flat), "flat place"); err != nil {
				return err
			}
			r.uv = append(r.uv, r.flat[v])
		}
	}
	if len(r.uv) != len(r.corners) {
		return r.build.Polygon(r.corners, nil)
	}
	return r.build.Polygon(r.corners, r.uv)
}

func index(word string, n int, of string) (int, error) {
	i, err := strconv.Atoi(word)
	if err != nil {
		return 0, fault.New(fault.Invalid, "%.40q is not the number of a %s", word, of)
	}
	if i < 0 {
		i += n + 1
	}
	if i < 1 || i > n {
		return 0, fault.New(fault.Invalid, "the face names %s %s of %d so far", of, word, n)
	}
	return i - 1, nil
}
