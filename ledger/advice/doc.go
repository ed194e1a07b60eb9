// Package advice says what to do next without words: an act, what it is of, and which
// of its parts are given. Figures, faults and entries advise a [Doing]; the program that
// shows them has a [Wording], by which it is a command that can be typed, or the name of
// a form with a link to it. So one sentence serves both, and neither is read back.
package advice
