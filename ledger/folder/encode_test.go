package folder

import (
	"encoding/json"
	"strings"
	"testing"
)

// TestEncode: a change is written the same whether it is written in pieces or
// not, and is read back as it was.
func TestEncode(t *testing.T) {
	row := "ä\"<&>\u2028\x00\t,1\r\n"
	large := Text(strings.Repeat(row, 3<<20/len(row)))
	for _, c := range []Change{
		{Number: 1, Files: []FileChange{{Name: "a.csv", Hunks: []Hunk{{Added: "one"}}}}},
		{Number: 2, Files: []FileChange{
			{Name: "a.csv", Hunks: []Hunk{{Removed: large, Added: "x"}, {At: 9, Removed: "y", Added: large + "z"}}},
			{Name: "b.csv", Hunks: []Hunk{{Added: large}, {Removed: large + "\xff"}}},
		}},
	} {
		var b strings.Builder
		if err := c.encode(&b); err != nil {
			t.Fatal(err)
		}
		whole, err := json.MarshalIndent(&c, "", " ")
		if err != nil {
			t.Fatal(err)
		}
		if b.String() != string(whole)+"\n" {
			t.Errorf("change %d differs from what it is in one piece", c.Number)
		}
		var back Change
		if err := json.Unmarshal([]byte(b.String()), &back); err != nil || back.Files[0].Hunks[0] != c.Files[0].Hunks[0] {
			t.Errorf("change %d does not come back: %v", c.Number, err)
		}
	}
}
