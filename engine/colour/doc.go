// Package colour works out how paint looks: from a reflectance spectrum, a
// light and an observer to colour numbers, to the difference between two
// colours as a person sees it, and to a screen; and from films of paint over a
// ground to the spectrum.
//
// # Purpose
//
// A painter measures a card, or knows only three numbers of a colour, and asks
// how it looks under daylight, lamp and tube, how far it stands from its
// neighbour, how it looks over this undercoat after so many coats, and how to
// show it on a screen without deceiving anybody.
//
// # Method
//
// Reflectance is held as [Bands] factors at 380…730 nm by 10 nm ([Spectrum]).
// A [Viewer] is a light times an observer: colour is one weighted sum, and the
// white that Lab is relative to is the same sum over a perfect diffuser
// [CIE15]. Differences are CIEDE2000 [Sharma2005]. Colours are shown as they
// look to an eye used to the light [Bradford], drawn in where a screen cannot
// show them [CSSColor4]. Where only three numbers are known a reflectance is
// made up [Burns2020]. Films follow Kubelka and Munk band by band [Kubelka1948],
// and a glossy face is taken off and put on by [Saunderson1942].
//
// # Limits
//
// Gloss, flop and fluorescence are outside a single reflectance curve. A
// spectrum made up from three numbers ([Reconstruct]) is one of infinitely
// many metamers and says how far it may stray under another light. A screen
// shows fewer colours than paint has; what was drawn in is told. Flakes do not
// follow Kubelka and Munk and are refused there.
//
// Keys in brackets stand in docs/references.md; docs/engine/colour.md has the
// sources of the tables and the measured figures.
package colour
