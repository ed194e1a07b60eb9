package entry

import (
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/intake"
)

// KeptNames reads what shops call things, as the ledger in dir keeps it.
func KeptNames(dir string) ([]intake.Name, error) {
	return kept(dir, intake.NamesFile, intake.ParseNames)
}

// KeptMaps reads how foreign files are read, as the ledger in dir keeps it.
func KeptMaps(dir string) ([]intake.Map, error) { return kept(dir, intake.MapsFile, intake.ParseMaps) }

func kept[T any](dir, name string, parse func(string) ([]T, ledger.Faults)) ([]T, error) {
	text, err := folder.ReadFile(dir, name)
	if err != nil {
		return nil, err
	}
	list, faults := parse(string(text))
	return list, faults.Err()
}

// KeepNames adds names to those that the ledger keeps.
func KeepNames(tx *folder.Tx, names []intake.Name) error {
	if len(names) == 0 {
		return nil
	}
	file := File{intake.NamesFile, func(have []byte) ([]byte, error) {
		list, faults := intake.ParseNames(string(have))
		return intake.PrintNames(intake.AddNames(list, names...)), faults.Err()
	}}
	return file.write(tx)
}
