// Package scenario reads and writes scenario files: one build as JSON, with
// the facts it begins with and the days on which it changed. A scenario is how
// a build is opened, carried from one shop to another, and replayed to any day.
//
// A file that is read has been checked as a whole: its form and every name in
// it are known, its facts keep the rules of package build, and its days replay
// in order. docs/scenario.md describes the form.
package scenario
