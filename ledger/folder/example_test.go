package folder_test

import (
	"context"
	"fmt"
	"os"

	"putby/ledger"
	"putby/ledger/folder"
)

// A new ledger gets a food, and the change is taken back.
func Example() {
	dir, err := os.MkdirTemp("", "ledger")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	if err := foodsInto(dir); err != nil {
		fmt.Println(err)
	}
	// Output:
	// change 2: 1 food
	// after undo: 0 foods
}

func foodsInto(dir string) error {
	ctx := context.Background()
	if err := folder.Create(ctx, dir, "begin", map[string][]byte{
		ledger.SettingsFile: []byte("setting,value\ncurrency,EUR\nzone,Europe/Lisbon\n"),
	}); err != nil {
		return err
	}
	book, err := folder.Opening{For: "an example"}.Open(ctx, dir)
	if err != nil {
		return err
	}
	defer book.Close()
	foods, _ := ledger.KindOf("food")
	change, err := book.Edit("add peas", func(tx *folder.Tx) error {
		return tx.Append(foods, map[string]string{"food": "peas", "basis": "mass"})
	})
	if err != nil {
		return err
	}
	rec, _ := book.Records()
	fmt.Printf("change %d: %d food\n", change.Number, len(rec.Foods))
	if _, err := book.Undo(); err != nil {
		return err
	}
	rec, _, err = folder.Read(dir)
	if err != nil {
		return err
	}
	fmt.Printf("after undo: %d foods\n", len(rec.Foods))
	return nil
}
