// Package colour works out how paint looks: from a reflectance spectrum, a
// light and an observer to colour numbers, to the difference between two
// colours as a person sees it, and to a screen.
//
// # Purpose
//
// A painter measures a card, or knows only three numbers of a colour, and asks
// how it looks under daylight, lamp and tube, how far it stands from its
// neighbour, and how to show it on a screen without deceiving anybody.
//
// # Method
//
// Reflectance is held as [Bands] factors at 380…730 nm by 10 nm ([Spectrum]).
// A [Viewer] is a light times an observer: colour is one weighted sum, and the
// white that Lab is relative to is the same sum over a perfect diffuser
// [CIE15]. Differences are CIEDE2000 [Sharma2005].
//
// # Limits
//
// Gloss, flop and fluorescence are outside a single reflectance curve. A
// spectrum made up from three numbers ([Reconstruct]) is one of infinitely
// many metamers and says how far it may stray under another light. A screen
// shows fewer colours than paint has; what was drawn in is told.
package colour
