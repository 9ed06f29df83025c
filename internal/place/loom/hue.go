package loom

import stage "fettle/stage/loom"

// hues are the colours of wires as they are drawn, near enough to tell them
// apart; what counts are the letters beside them.
var hues = map[string]string{
	"black": "#1c1c1c", "brown": "#71451f", "red": "#c22a1e", "orange": "#e37d1d", "yellow": "#edc722", "green": "#2c7a3c", "blue": "#2656a4",
	"violet": "#7a3f91", "slate": "#7d868e", "white": "#f7f6f1", "pink": "#e8a0ae", "turquoise": "#2fa59d", "light green": "#8cc46a",
}

// paints are the base colour and the tracer of what lies in a cavity; the
// tracer is the base where there is none, and both are empty for no wire.
func paints(letters []string) (base, tracer string) {
	if len(letters) == 0 {
		return "", ""
	}
	names := stage.Hues(letters[0])
	if len(names) == 0 {
		return "", ""
	}
	base = hues[names[0]]
	tracer = base
	if len(names) > 1 {
		tracer = hues[names[1]]
	}
	return base, tracer
}
