package colour_test

import (
	"fmt"

	"fettle/engine/colour"
)

// limewash is an off-white: hardly any absorption but in the violet.
func limewash() colour.Paint {
	p := colour.Paint{Name: "off-white", S: colour.Flat(0.12), K: colour.Flat(0.006)}
	for i := range 8 {
		p.K[i] += 0.002 * float64(8-i)
	}
	return p
}

// How many coats hide a black sealer, and how many a light grey one?
func ExampleJob_ToHide() {
	day := colour.NewViewer(colour.D65(), colour.Degrees10())
	for _, sealer := range []struct {
		name string
		r    float64
	}{{"black", 0.02}, {"light grey", 0.65}} {
		job := colour.Job{
			Paint: colour.Known(limewash()), Coat: 9, Over: colour.Flat(sealer.r),
			Surface: colour.Glossy(1.5, 0.6, true),
		}
		n, err := job.ToHide(day, colour.Hides{})
		fmt.Println(sealer.name, n, err)
	}
	// Output:
	// black 6 <nil>
	// light grey 3 <nil>
}

// A card sprayed once over black and once over white gives K and S.
func ExampleFit() {
	skin := colour.Glossy(1.5, 0.6, true)
	black, white := colour.Flat(0.02), colour.Flat(0.82)
	laid := colour.Layer{Paint: limewash(), Film: 18}
	card := colour.Card{
		Name: "off-white", Surface: skin, Noise: 0.004,
		Grounds: []colour.Spectrum{skin.Seen(black), skin.Seen(white)},
		Films: []colour.Reading{
			{Ground: 0, Film: 18, R: skin.Seen(colour.Over(black, laid))},
			{Ground: 1, Film: 18, R: skin.Seen(colour.Over(white, laid))},
		},
	}
	f, err := colour.Fit(card)
	if err != nil {
		fmt.Println(err)
		return
	}
	const green = 16 // 540 nm
	fmt.Printf("K %.4f ± %.4f, S %.3f ± %.3f a µm\n", f.Paint.K[green], f.KError[green], f.Paint.S[green], f.SError[green])
	// Output:
	// K 0.0060 ± 0.0005, S 0.120 ± 0.006 a µm
}
