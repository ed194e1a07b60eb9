//go:build !linux

package main

import (
	"errors"
	"os"
)

// Elsewhere traces stay where Go prints them.
func ownStderr() *os.File { return nil }

func redirectTraces(*os.File) error { return errors.ErrUnsupported }
