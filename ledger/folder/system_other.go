//go:build !windows

package folder

var here = unixRules
