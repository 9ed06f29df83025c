package surface

import (
	"strings"
)

// Script is the island that moves a board.
const Script = "surface.js"

// AtOnce is how many vertices are laid flat, and drawn as still pictures, while
// a person waits.
const AtOnce = 8_000

// Board is the moving view: a surface, and beside it the same laid flat. A page
// holds one of it within an element with data-surface, a form with data-ask
// whose field cuts carries the cuts, and parts with data-told that are fetched
// anew with Data once something was drawn.
type Board struct {
	Name     string
	Solid    Solid
	Side     Named
	Flat     *Flat   // nil before it is laid flat
	Coming   bool    // it is being laid flat: what was laid before is shown meanwhile
	Source   []int32 // by flat point: the vertex of the solid
	Measures []Measure
	Words    [Classes]string // what a class says to a person; empty is the class's own word
	Cut      string          // what a cut is called: seam, cut
	On, Laid string          // captions of both pictures
	Path     func(side string) string
}

func (b Board) words() []string {
	list := make([]string, Classes)
	for c := range list {
		if list[c] = b.Words[c]; list[c] == "" {
			list[c] = words[c]
		}
	}
	return list
}

// Marks are vertices of a rim with numbers to type, thinned to what a drawing
// can carry. Loops are the rims of the surface.
func Marks(loops [][]int32) []int32 {
	const most = 28
	var list []int32
	for _, loop := range loops {
		step := max(1, len(loop)/most)
		for i := 0; i < len(loop); i += step {
			list = append(list, loop[i])
		}
	}
	return list[:min(len(list), 3*most)]
}

// key is one button of the board; island/surface/acts.ts has the acts.
type key struct{ Act, Word, Says, Keys, Needs string }

// keyRow are buttons that belong together.
type keyRow struct {
	Label string
	Keys  []key
}

// rows are all buttons, by what a cut is called.
func (b Board) rows() []keyRow {
	title := strings.ToUpper(b.Cut[:1]) + b.Cut[1:]
	return []keyRow{
		{"Steps and view", []key{
			{Act: "undo", Word: "Undo", Keys: "Control+Z"},
			{Act: "redo", Word: "Redo", Keys: "Control+Y"},
			{Act: "fit", Word: "Whole", Says: "Bring the whole into view", Keys: "0"},
			{Act: "closer", Word: "Closer", Keys: "+"},
			{Act: "farther", Word: "Farther", Keys: "-"},
		}},
		{title + "s", []key{
			{Act: "seam", Word: "Draw a " + b.Cut, Keys: "S"},
			{Act: "put", Word: "Through here", Says: "Put the " + b.Cut + " through the vertex of the cursor", Keys: "Enter Space"},
			{Act: "next", Word: "Next place", Says: "Pick the next place of the " + b.Cut + "s", Keys: "N"},
			{Act: "end", Word: title + " done", Keys: "Escape", Needs: "seam"},
			{Act: "off", Word: "Place off", Says: "Take the picked place out", Keys: "Backspace", Needs: "place"},
			{Act: "offAll", Word: title + " off", Says: "Take the whole " + b.Cut + " out", Keys: "Delete", Needs: "seam"},
		}},
		{"Turn, or move what is picked", []key{
			{Act: "left", Word: "←", Says: "Left", Keys: "ArrowLeft"},
			{Act: "right", Word: "→", Says: "Right", Keys: "ArrowRight"},
			{Act: "up", Word: "↑", Says: "Up", Keys: "ArrowUp"},
			{Act: "down", Word: "↓", Says: "Down", Keys: "ArrowDown"},
		}},
	}
}

// tint is one tone of one class, from which the island takes its paints.
type tint struct{ Class, Light int }

func tints() []tint {
	var list []tint
	for c := range Classes {
		for l := range Lights {
			list = append(list, tint{c, l})
		}
	}
	return list
}
