package pattern

import (
	"math"
	"slices"
)

// sharpest returns the ways along a row at which its bend, taken over 30 mm, is
// sharper than anywhere within 60 mm and turns 15° or more.
func (l Line) sharpest() []float64 {
	const pace, over, apart = 3.0, 15.0, 60.0
	long := l.Length()
	n := int(min((long-2*over)/pace, 10_000))
	if n < 1 {
		return nil
	}
	bend := make([]float64, n+1)
	for i := range bend {
		way := over + float64(pace*float64(i))
		p, _ := l.at(way - over)
		q, _ := l.at(way)
		r, _ := l.at(way + over)
		bend[i] = math.Abs(math.Atan2(q.Sub(p).Cross(r.Sub(q)), dot(q.Sub(p), r.Sub(q))))
	}
	// A plateau, such as the arc of a circle, has no sharpest place and gets none.
	var out []float64
	near := int(apart / pace)
	for i, x := range bend {
		if x < 15*math.Pi/180 {
			continue
		}
		lo, hi := max(0, i-near), min(n, i+near)
		first := slices.Index(bend[lo:hi+1], slices.Max(bend[lo:hi+1])) + lo
		if least := slices.Min(bend[lo : hi+1]); first == i && x-least > 0.3*x && (len(out) == 0 || over+float64(pace*float64(i))-out[len(out)-1] > apart) {
			out = append(out, over+float64(pace*middle(bend, i)))
		}
	}
	return out
}

// middle is the middle of the steps about i that bend as much as i does.
func middle(bend []float64, i int) float64 {
	last := i
	for last+1 < len(bend) && bend[last+1] > bend[i]-1e-9 {
		last++
	}
	return float64(i+last) / 2
}
