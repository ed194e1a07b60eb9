package entry

import (
	"putby/ledger/folder"
	"putby/ledger/intake"
)

// KeptNames reads what shops call things, as the ledger in dir keeps it.
func KeptNames(dir string) ([]intake.Name, error) {
	text, err := folder.ReadFile(dir, intake.NamesFile)
	if err != nil {
		return nil, err
	}
	names, faults := intake.ParseNames(string(text))
	return names, faults.Err()
}
