package folder

import (
	"os"
	"path/filepath"
	"testing"
)

const okSettings = "setting,value\nformat,1\ncurrency,EUR\nzone,Europe/Vienna\n"

// write makes a ledger's folder of files given as name, text, name, text ...
// settings.csv is added where it is not among them.
func write(t testing.TB, files ...string) string {
	t.Helper()
	dir := t.TempDir()
	save := func(name, text string) {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	save("settings.csv", okSettings)
	for i := 0; i < len(files); i += 2 {
		save(files[i], files[i+1])
	}
	return dir
}

func TestReadSmall(t *testing.T) {
	dir := write(t,
		"foods.csv", "\ufefffood;basis;x\r\nleek;mass;1\r\n;;\r\n\r\n\"corn\";count;\"a\r\nb\"\r\n",
		"meter/R1.csv", "time,watts\n2025-10-26 01:30,100\n2025-10-26 02:30,100\n2025-10-26 02:15,50\n2025-10-26 03:00:30,50\n",
	)
	rec, faults, err := Read(dir)
	if err != nil || len(faults) > 0 {
		t.Fatal(faults, err)
	}
	if len(rec.Foods) != 2 || rec.Foods[1].ID != "corn" || rec.Foods[1].Line != 5 {
		t.Errorf("foods: %+v", rec.Foods)
	}
	if rec.Meters["R1"] == nil {
		t.Errorf("no log")
	}
}
