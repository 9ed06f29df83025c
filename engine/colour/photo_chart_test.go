package colour_test

import (
	"math"
	"testing"

	"fettle/engine/colour"
)

// snap photographs a reflectance with a made-up camera: three bell curves for
// filters, which no observer has, a white balance that is off by the factors
// given, and the rendering with rows of sum 1 that suits the chart best.
func snap(s colour.Spectrum, off [3]float64) colour.SRGB {
	render := [3][3]float64{{1.751, -0.802, 0.051}, {-0.086, 1.288, -0.202}, {0.012, -0.3, 1.288}}
	var raw, out [3]float64
	for k, peak := range [3]float64{600, 535, 460} {
		white := 0.0
		for i, r := range s {
			w := math.Exp(-math.Pow((float64(colour.Wavelength(i))-peak)/45, 2))
			raw[k], white = raw[k]+w*r, white+w
		}
		raw[k] *= off[k] / white
	}
	for k, row := range render {
		v := max(0, row[0]*raw[0]+row[1]*raw[1]+row[2]*raw[2])
		out[k] = min(1, 1.055*math.Pow(v, 1/2.4)-0.055)
		if v < 0.0031308 {
			out[k] = 12.92 * v
		}
	}
	return colour.SRGB{R: out[0], G: out[1], B: out[2]}
}

// nearest returns the colour reference that lies next to a patch.
func nearest(list []colour.Spectrum, card int) (best int) {
	far := math.Inf(1)
	for i := range list {
		if d := colour.Difference(day.Lab(list[i]), day.Lab(list[card])); i != card && d < far && day.Lab(list[i]).LCh().C > 15 {
			best, far = i, d
		}
	}
	return best
}

// TestPhoto_Chart takes each patch in turn as the card, neutral 5 as the grey
// and the next patch as the known colour.
func TestPhoto_Chart(t *testing.T) {
	list, grey := patches(t), 21
	for _, off := range [][3]float64{{1, 1, 1}, {1.1, 1, 0.75}, {0.8, 0.9, 1}} {
		in, tried, sum := 0, 0, 0.0
		known := func(i int) colour.Reference {
			return colour.Reference{Patch: colour.Patch{Seen: snap(list[i], off)}, Known: day.Lab(list[i])}
		}
		for i, s := range list {
			e, err := colour.Photo{Card: colour.Patch{Seen: snap(s, off)}, Grey: known(grey), Colour: known(nearest(list, i))}.Estimate()
			if err != nil {
				t.Logf("balance %v, patch %d: %v", off, i+1, err)
				continue
			}
			d := colour.Difference(e.Lab, day.Lab(s))
			tried, sum = tried+1, sum+d
			if d <= e.Within {
				in++
			}
		}
		if tried < 18 || 3*in < 2*tried {
			t.Errorf("balance %v: %d of %d within, want two in three", off, in, tried)
		}
		t.Logf("balance %v: %d of %d within, mean %.2f off", off, in, tried, sum/float64(tried))
	}
}
