package trim

// The keys of the editor; island/layout/acts.ts has the acts. A key is named as
// aria-keyshortcuts does.
var viewKeys = []key{
	{Act: "undo", Word: "Undo", Keys: "Control+Z"},
	{Act: "redo", Word: "Redo", Keys: "Control+Y"},
	{Act: "fit", Word: "Whole sheet", Keys: "0"},
	{Act: "closer", Word: "Closer", Keys: "+"},
	{Act: "farther", Word: "Farther", Keys: "-"},
	{Act: "out", Word: "Keep-out", Keys: "K"},
}

var turnKeys = []key{
	{Act: "anti", Word: "↺ 5°", Says: "Turn 5° to the left", Keys: "[", Needs: "copy"},
	{Act: "antiFine", Word: "↺ ½°", Says: "Turn ½° to the left", Keys: "{", Needs: "copy"},
	{Act: "clockFine", Word: "↻ ½°", Says: "Turn ½° to the right", Keys: "}", Needs: "copy"},
	{Act: "clock", Word: "↻ 5°", Says: "Turn 5° to the right", Keys: "]", Needs: "copy"},
	{Act: "lock", Word: "Lock", Says: "Lock or unlock", Keys: "L", Needs: "copy"},
	{Act: "off", Word: "Take off", Keys: "Delete Backspace", Needs: "any"},
	{Act: "drop", Word: "Let go", Keys: "Escape", Needs: "any"},
}

var moveKeys = []key{
	{Act: "left", Word: "←", Says: "Move left", Keys: "ArrowLeft", Needs: "copy"},
	{Act: "right", Word: "→", Says: "Move right", Keys: "ArrowRight", Needs: "copy"},
	{Act: "up", Word: "↑", Says: "Move up", Keys: "ArrowUp", Needs: "copy"},
	{Act: "down", Word: "↓", Says: "Move down", Keys: "ArrowDown", Needs: "copy"},
}
