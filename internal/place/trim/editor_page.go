package trim

// editorScript is the island; lightShell is the shared script without what
// fetches parts of a page anew, since the draft on this page is the person's own.
const (
	editorScript = "layout.js"
	lightShell   = "light.js"
)
