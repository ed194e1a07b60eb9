package render

import (
	"strings"
	"testing"
)

// Names of wide characters stay in line, and a cell that is too long for the terminal
// goes on beneath itself: no figure is cut or moved.
func TestColumns(t *testing.T) {
	lines := []string{"Two lines:", "  漢字の名前\t2.40\t1.20 each", "  leeks, 2 x 1 kg at 2.50\t14.80", "  in all\t17.20", "Done."}
	for most, want := range map[int]string{
		0: `Two lines:
  漢字の名前                2.40  1.20 each
  leeks, 2 x 1 kg at 2.50  14.80
  in all                   17.20
Done.`,
		32: `Two lines:
  漢字の名前     2.40  1.20 each
  leeks, 2 x 1  14.80
  kg at 2.50
  in all        17.20
Done.`,
		5: `Two lines:
  漢字の名前                2.40  1.20 each
  leeks, 2 x 1 kg at 2.50  14.80
  in all                   17.20
Done.`,
	} {
		if got := strings.Join(Columns(lines, most), "\n"); got != want {
			t.Errorf("%d columns:\n%s\nwant:\n%s", most, got, want)
		}
	}
}
