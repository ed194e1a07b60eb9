package ledger

import (
	"archive/zip"
	"go/build"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestZones holds the names to those of the time zone database that Go brings
// along (lib/time/zoneinfo.zip, from IANA's), which the program has within it.
// UPDATE_ZONES=1 renews them.
func TestZones(t *testing.T) {
	z, err := zip.OpenReader(filepath.Join(build.Default.GOROOT, "lib", "time", "zoneinfo.zip"))
	if err != nil {
		t.Skip("this Go has no database of its own: ", err)
	}
	defer z.Close()
	var want []string
	for _, f := range z.File {
		if !strings.HasSuffix(f.Name, "/") {
			want = append(want, f.Name)
		}
	}
	slices.Sort(want)
	if os.Getenv("UPDATE_ZONES") != "" {
		if err := os.WriteFile("zones.txt", []byte(strings.Join(want, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if have := strings.Fields(zoneNames); !slices.Equal(have, want) {
		t.Errorf("%d names, the database has %d: run the test with UPDATE_ZONES=1", len(have), len(want))
	}
}

// TestZoneOfThisMachine: a name that only this machine has is none.
func TestZoneOfThisMachine(t *testing.T) {
	for _, name := range []string{"localtime", "posixrules", "right/Europe/Vienna", "posix/Europe/Vienna", "Local", "", "../etc/localtime", "europe/vienna"} {
		if err := CheckZone(name); err == nil {
			t.Errorf("%q is taken for a zone", name)
		}
	}
	for _, name := range []string{"Europe/Vienna", "UTC", "Etc/GMT+5", "America/Argentina/Ushuaia"} {
		if err := CheckZone(name); err != nil {
			t.Error(err)
		}
	}
}
