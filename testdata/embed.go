// Package testdata holds the ledgers that the program can write out for people
// to try: a household's year, and one small enough to work on paper.
package testdata

import "embed"

// Ledgers has the folders sample and small.
//
//go:embed sample small
var Ledgers embed.FS
