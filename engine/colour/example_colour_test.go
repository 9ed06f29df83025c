package colour_test

import (
	"fmt"
	"math"

	"fettle/engine/colour"
)

// A made-up teal and the cream beside it: how each looks by day, how far apart
// they stand, and what becomes of that under lamp and tube.
func Example() {
	var teal, cream colour.Spectrum
	for i := range teal {
		w := float64(colour.Wavelength(i))
		teal[i] = 0.06 + 0.30*math.Exp(-math.Pow((w-500)/45, 2))
		cream[i] = 0.30 + 0.42/(1+math.Exp(-(w-480)/28))
	}
	for _, light := range []colour.Light{colour.D65(), colour.A(), colour.F11()} {
		v := colour.NewViewer(light, colour.Degrees2())
		a, b := v.Lab(teal), v.Lab(cream)
		line := colour.Beside(a, b)
		fmt.Printf("%-4s teal L %.1f a %.1f b %.1f on screen %s; cream %s; ΔE00 %.1f, ΔL %.1f, %.1f : 1\n", light.Name,
			a.L, a.A, a.B, v.Show(teal).Colour.Hex(), v.Show(cream).Colour.Hex(), line.Difference, line.Lightness, line.Ratio)
	}
	// Output:
	// D65  teal L 47.2 a -41.2 b -4.5 on screen #008076; cream #dfd7a9; ΔE00 40.9, ΔL 38.4, 3.4 : 1
	// A    teal L 42.9 a -37.3 b -16.2 on screen #00777c; cream #e1d7ab; ΔE00 48.6, ΔL 43.6, 4.1 : 1
	// F11  teal L 43.7 a -31.0 b -6.6 on screen #007671; cream #ded9a5; ΔE00 44.5, ΔL 42.7, 4.0 : 1
}

func ExampleReconstruct() {
	day := colour.NewViewer(colour.D65(), colour.Degrees2())
	read, _ := colour.ParseHex("#2f6f73")
	made, err := colour.Reconstruct(read.Lab(), day)
	if err != nil {
		fmt.Println(err)
		return
	}
	tube := colour.NewViewer(colour.F11(), colour.Degrees2())
	fmt.Printf("%.3f at 500 nm, %.3f at 600 nm\n", made.Spectrum[12], made.Spectrum[22])
	fmt.Printf("by day %s; under the tube within ΔE00 %.1f of %s\n",
		day.Show(made.Spectrum).Colour.Hex(), made.Doubt(tube), tube.Show(made.Spectrum).Colour.Hex())
	// Output:
	// 0.195 at 500 nm, 0.074 at 600 nm
	// by day #2f6f73; under the tube within ΔE00 2.9 of #326c72
}
