// Package arch holds the test that keeps the arrows of docs/architecture.md
// pointing one way. It has no code of its own.
package arch
