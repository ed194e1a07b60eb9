//go:build !linux

package folder

var systemRoles map[string]func(dir string) error
