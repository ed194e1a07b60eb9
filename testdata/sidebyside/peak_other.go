//go:build !unix

package main

import "os"

// peakOf would be the most memory that a process had, but nothing tells.
func peakOf(*os.ProcessState) int64 { return 0 }
