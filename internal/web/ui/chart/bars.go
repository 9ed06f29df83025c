package chart

func (b Bars) highest() float64 {
	h := b.Line
	for _, one := range b.All {
		h = max(h, one.Value)
	}
	if h <= 0 {
		return 1
	}
	return h
}

// pitch is the room of one bar.
func (b Bars) pitch() float64 { return (wide - left - right) / float64(max(len(b.All), 1)) }

func (b Bars) barX(i int) float64 { return left + float64(float64(i)*b.pitch()) + b.pitch()*0.14 }

func (b Bars) barY(v float64) float64 { return y(max(v, 0) / b.highest()) }

func (b Bars) barH(v float64) float64 { return y(0) - b.barY(v) }

// labelled thins the week names so that they do not touch.
func (b Bars) labelled(i int) bool {
	every := len(b.All)/9 + 1
	return i%every == 0
}

// written tells whether the values have room above their bars.
func (b Bars) written() bool { return b.pitch() >= 34 }
