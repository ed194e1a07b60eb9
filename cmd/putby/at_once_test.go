//go:build !linux

package main

import "testing"

var atOnce []func(*testing.T)
