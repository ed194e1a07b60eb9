package folder

import (
	"fmt"
	"path"
	"strings"

	"putby/ledger"
	"putby/pricing/exact"
)

// portable holds that a file called after an identifier can be kept on every
// system, since ledgers are carried from one to another: its name is none that
// Windows keeps for devices, whatever its letters and its ending (Microsoft,
// "Naming Files, Paths, and Namespaces"), and none that differs from another
// by small and capital letters alone, which Windows and macOS take for one.
func (tx *Tx) portable(name string) error {
	if !isSeries(name) {
		return nil
	}
	of := "run"
	if path.Dir(name) == ledger.RatesFolder {
		of = "tariff"
	}
	if device, _, _ := strings.Cut(strings.ToUpper(path.Base(name)), "."); isDevice(device) {
		return &ledger.Fault{
			Kind: ErrFailed, What: fmt.Sprintf("nothing was saved: %s cannot be kept, since on Windows no file can be called %s", name, device),
			Hint: fmt.Sprintf("give the %s another identifier, such as %s-1, wherever it is named", of, runOf(name)),
		}
	}
	for other := range tx.book.files.texts {
		if gone, changed := tx.files[other]; changed && gone == nil || other == name || !strings.EqualFold(other, name) {
			continue
		}
		return &ledger.Fault{
			Kind: ErrFailed, What: fmt.Sprintf("nothing was saved: %s cannot be kept beside %s, since Windows and macOS take the two for one file", name, other),
			Hint: fmt.Sprintf("give the %s %s an identifier that differs by more than small and capital letters", of, exact.Quote(runOf(name))),
		}
	}
	return nil
}

// isDevice tells the names, in capitals, that are devices on Windows.
func isDevice(name string) bool {
	switch name {
	case "CON", "PRN", "AUX", "NUL":
		return true
	}
	port, digit := strings.TrimRight(name, "0123456789"), strings.TrimLeft(name, "COMLPT")
	return (port == "COM" || port == "LPT") && len(digit) == 1
}
