package loom

import "math"

// SeriesLampWatts is the lamp that is put in series for a first power-up.
const SeriesLampWatts = 21.0

// ThroughLamp returns the volts across a lamp of 21 W in series with a
// resistance, and the amps of both: the volts at which lamp and resistance carry
// the same. The lamp is made for some volts and takes amps ∝ V^0.55.
func ThroughLamp(ohms, volts, made float64) (lamp, amps float64) {
	low, high := 0.0, volts
	for range 60 {
		lamp = (low + high) / 2
		if lampAmps(lamp, made) > (volts-lamp)/ohms {
			high = lamp
		} else {
			low = lamp
		}
	}
	return lamp, lampAmps(lamp, made)
}

func lampAmps(volts, made float64) float64 {
	return SeriesLampWatts / made * math.Pow(volts/made, 0.55)
}
