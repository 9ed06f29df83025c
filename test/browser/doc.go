// Package browser holds the tests that walk through the program as its people
// do: in a real Chromium, by touch, by keyboard, on paper, offline, without
// script and through a screen reader's eyes. They run with FETTLE_BROWSER=1
// where Chromium is installed; FETTLE_SHOTS names a folder for pictures of what
// was seen.
package browser
