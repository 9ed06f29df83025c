package colour

import (
	"math"

	"fettle/fault"
)

// shows is the least difference, inside the paint, between a film over white
// and over black from which more than K/S can be told.
const shows = 0.01

// Pair returns K and S, 1/µm, of a film of x µm dry from its reflectances over
// a dark and a light ground, all inside the paint, for one band: the exact
// solution of
//
//	a(R+G) + C(R−G) = 1 + RG    over either ground, C = b·coth(bSX), b = √(a²−1)
//
// It is solved for v = a/C and p = 1/C, which stay finite where nothing
// scatters or nothing is absorbed: then √(v²−p²) = tanh(mX), S = pm/tanh(mX)
// and K = (v−p)m/tanh(mX). Refused where it has no answer: black lighter than
// white, a ground that no longer shows (only K/S is known, by [Ratio]), a < 1,
// C ≤ b.
func Pair(x, overDark, dark, overLight, light float64) (k, s float64, err error) {
	for _, r := range [...]float64{overDark, dark, overLight, light} {
		if !(r >= 0 && r <= 1) {
			return 0, 0, fault.New(fault.Invalid, "a reflectance of %g inside the paint: 0 to 1 is wanted", r)
		}
	}
	if err := checkFilm(x); err != nil {
		return 0, 0, err
	}
	switch {
	case light-dark < shows:
		return 0, 0, fault.New(fault.Invalid, "the grounds, %.3f and %.3f, are too alike", dark, light)
	case overLight < overDark:
		return 0, 0, blackLighter(overDark, overLight)
	case overLight-overDark < shows:
		return 0, 0, fault.New(fault.Invalid, "the film hides: over black and over white it differs by %.4f, less than %g", overLight-overDark, shows).
			WithHint("only K/S can be told; lay a thinner film for the rest")
	}
	f := linearPair(overDark, dark, overLight, light)
	switch {
	case f.v < f.p:
		return 0, 0, gainsLight()
	case f.p < 0 || f.tanh2() >= 1:
		return 0, 0, noSuchFilm()
	}
	k, s = f.powers(x)
	return k, s, nil
}

func blackLighter(overDark, overLight float64) *fault.Fault {
	return fault.New(fault.Invalid, "over black it reads %.3f, over white %.3f: the film over black cannot be the lighter", overDark, overLight).
		WithHint("look whether the two readings were swapped")
}

func gainsLight() *fault.Fault {
	return fault.New(fault.Invalid, "over white it reads lighter than a film can that gives up so little over black (a is below 1)").
		WithHint("look at the reading of the bare white, at the surface correction, and for a paint that glows")
}

func noSuchFilm() *fault.Fault {
	return fault.New(fault.Invalid, "no film of one paint gives these four readings (C is not above b)").
		WithHint("look whether both grounds got the same film, and whether the readings belong together")
}

// flux is the pair's answer: v = a/C, p = 1/C.
type flux struct{ v, p float64 }

// linearPair solves (R+G)v − (1+RG)p = G−R for both grounds.
func linearPair(rb, gb, rw, gw float64) flux {
	d := (rw+gw)*(1+rb*gb) - (rb+gb)*(1+rw*gw)
	return flux{
		v: ((1+rb*gb)*(gw-rw) - (1+rw*gw)*(gb-rb)) / d,
		p: ((rb+gb)*(gw-rw) - (rw+gw)*(gb-rb)) / d,
	}
}

// tanh2 returns tanh²(mX).
func (f flux) tanh2() float64 { return (f.v - f.p) * (f.v + f.p) }

// powers returns K and S for a film of x µm.
func (f flux) powers(x float64) (k, s float64) {
	m := 1 / x // times tanh⁻¹(t)/t, 1 where t is nothing
	if t := math.Sqrt(f.tanh2()); t > 1e-8 {
		m *= math.Atanh(t) / t
	}
	return (f.v - f.p) * m, f.p * m
}
