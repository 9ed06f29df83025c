package flatten

import (
	"cmp"
	"math"
	"slices"

	"fettle/geom"
)

// Percentiles of mounting stretch are taken by area.
const mostOfArea = 0.99

// faceStrains works out the mounting stretch of every face of flat positions
// whose material runs along x.
func faceStrains(s *sheet, at []geom.Point) []FaceStrain {
	list := make([]FaceStrain, len(s.faces))
	for i := range s.faces {
		list[i] = faceStrain(s.jacobian(i, at))
	}
	return list
}

// faceStrain is that of one face, by its map from the surface to the pattern.
func faceStrain(j jacobian) FaceStrain {
	large, small := stretches(j)
	d := j.det()
	// The way back, from the pattern to the surface, takes x and y to these.
	x, y := geom.Point{X: j.YY / d, Y: -j.YX / d}, geom.Point{X: -j.XY / d, Y: j.XX / d}
	long, wide := math.Hypot(x.X, x.Y), math.Hypot(y.X, y.Y)
	dot := float64(x.X*y.X) + float64(x.Y*y.Y)
	// On the pattern J·Jᵀ has the axes of stretch; the larger mounting stretch
	// is across the larger of J.
	xx, yy := float64(j.XX*j.XX)+float64(j.XY*j.XY), float64(j.YX*j.YX)+float64(j.YY*j.YY)
	xy := float64(j.XX*j.YX) + float64(j.XY*j.YY)
	angle := math.Atan2(2*xy, xx-yy)/2 + math.Pi/2
	if angle > math.Pi/2 {
		angle -= math.Pi
	}
	return FaceStrain{
		Stretch: [2]float64{1/small - 1, 1/large - 1}, Angle: angle,
		Along: long - 1, Across: wide - 1, Shear: math.Asin(max(-1, min(1, dot/float64(long*wide)))),
	}
}

// stretches returns the singular values of a map, the larger first; the
// smaller is negative where the face is turned over.
func stretches(j jacobian) (large, small float64) {
	a := math.Hypot(j.XX+j.YY, j.YX-j.XY) / 2
	b := math.Hypot(j.XX-j.YY, j.YX+j.XY) / 2
	return a + b, a - b
}

// sumUp sums up the strain of flat positions and of the outline's crossings.
func sumUp(s *sheet, at []geom.Point, faces []FaceStrain, b border) Strain {
	t := Strain{Flips: s.flipped(at), Overlaps: s.overlaps(at, b)}
	t.Along, t.Across = [2]float64{math.Inf(1), math.Inf(-1)}, [2]float64{math.Inf(1), math.Inf(-1)}
	var logs float64
	for i, f := range faces {
		j, share := s.jacobian(i, at), s.rest[i].Area/s.area
		large, small := stretches(j)
		log := math.Log(math.Abs(j.det()))
		t.Dirichlet += float64(share * (dirichlet{}).value(i, j))
		t.Quasi += float64(share * large / math.Abs(small))
		logs += float64(share * float64(log*log))
		t.Along = [2]float64{min(t.Along[0], f.Along), max(t.Along[1], f.Along)}
		t.Across = [2]float64{min(t.Across[0], f.Across), max(t.Across[1], f.Across)}
		for _, x := range f.Stretch {
			if math.Abs(x) > math.Abs(t.Stretch[2]) {
				t.Stretch[2] = x
			}
		}
	}
	t.AreaRMS = math.Sqrt(logs)
	t.Stretch[0] = atShare(s, faces, 0, mostOfArea)
	t.Stretch[1] = atShare(s, faces, 1, 1-mostOfArea)
	return t
}

// atShare returns the stretch that a share of the area does not exceed.
func atShare(s *sheet, faces []FaceStrain, which int, share float64) float64 {
	order := make([]int32, len(faces))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(a, b int32) int {
		return cmp.Or(cmp.Compare(faces[a].Stretch[which], faces[b].Stretch[which]), cmp.Compare(a, b))
	})
	var sum float64
	for _, i := range order {
		if sum += s.rest[i].Area; sum >= float64(share*s.area) {
			return faces[i].Stretch[which]
		}
	}
	return faces[order[len(order)-1]].Stretch[which]
}

// along returns the places of a boundary's vertices in turn.
func along(at []geom.Point, boundary []int32) []geom.Point {
	out := make([]geom.Point, len(boundary))
	for i, v := range boundary {
		out[i] = at[v]
	}
	return out
}
