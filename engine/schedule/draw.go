package schedule

import "math"

// Every draw is a hash of the seed, the run and a key that belongs to the thing
// drawn: the FNV-1a hash of its ID and what the draw is for. A thing added to
// or taken from a problem leaves the draws of all others as they were, so two
// problems meet the same luck and their odds can be compared.

type drawKey uint64

// What a draw is for; mixed into the key so that the draws of one ID differ.
const (
	forWork uint64 = 1 + iota
	forExtra
	forLate
	forFactor
	forAway
	forPace
	forRisk
)

func keyOf(id string, purpose uint64) drawKey {
	h := uint64(14695981039346656037) // FNV-1a, 64 bits: offset basis and prime
	for i := range len(id) {
		h = (h ^ uint64(id[i])) * 1099511628211
	}
	return drawKey(mix(h ^ purpose*0x9e3779b97f4a7c15))
}

// mix is the finalizer of splitmix64: every input bit reaches every output bit.
func mix(x uint64) uint64 {
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// luck is the source of the draws of one run.
type luck uint64

func luckOf(seed uint64, run int) luck {
	return luck(mix(mix(seed+0x9e3779b97f4a7c15) + uint64(run+1)*0x9e3779b97f4a7c15))
}

// bits are 53 random bits.
func (l luck) bits(k drawKey) uint64 { return mix(uint64(l)^uint64(k)) >> 11 }

// uniform is the middle of one of 2^52 equal parts of the stretch from 0 to 1:
// never an end of it.
func (l luck) uniform(k drawKey) float64 { return float64(l.bits(k)|1) / (1 << 53) }

// at is the inverse of the triangular distribution function. Products
// are converted so that no machine fuses them into a sum.
func (s Spread) at(u float64) float64 {
	width := s.High - s.Low
	if width == 0 {
		return s.Mode
	}
	if rise := (s.Mode - s.Low) / width; u < rise {
		return s.Low + math.Sqrt(float64(u*width)*(s.Mode-s.Low))
	}
	return s.High - math.Sqrt(float64((1-u)*width)*(s.High-s.Mode))
}

func (s Spread) given() bool { return s != Spread{} }
