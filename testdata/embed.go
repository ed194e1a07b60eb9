// Package testdata holds the sample ledger, so that the program can write it
// out for people to try.
package testdata

import "embed"

// Sample is the folder sample.
//
//go:embed sample
var Sample embed.FS
