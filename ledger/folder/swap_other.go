//go:build !linux

package folder

// swap would let two files change names at one moment, but there is no way to.
func (d rootDisk) swap(string, string) (bool, error) { return false, nil }
