package loom

// TimeOn is the part of the time that a circuit of a list counts for in the
// charging balance: as it is told, else by its duty.
func (c Circuit) TimeOn() float64 { return or(c.Share, shareOf(c.Duty)) }

// TimeOn is the part of the time that a consumer counts for in the charging
// balance.
func (c Consumer) TimeOn() float64 {
	if c.Short {
		return 0
	}
	return or(c.Duty, 1)
}

// Takes returns the amps that a consumer takes at the volts of its plate.
func (p *Problem) Takes(c Consumer) float64 {
	_, amps := p.rated(&c)
	return amps
}

// Resting returns the volts of a battery at rest, 12.6 V of 12, and those that it
// is called by.
func (p *Problem) Resting() (volts, called float64) {
	return p.batteryVolts(Battery{}), p.nominal()
}
