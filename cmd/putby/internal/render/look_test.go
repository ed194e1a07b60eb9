package render

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

func TestLook(t *testing.T) {
	for _, w := range strings.Fields(os.Getenv("LOOK")) {
		var o Options
		f := Table
		if _, err := fmt.Sscan(w, &o.Width); err != nil {
			f, _ = ParseFormat(w)
		}
		o.Chart = os.Getenv("CHART") != ""
		o.ASCII, o.Colour = os.Getenv("ASCII") != "", os.Getenv("COLOUR") != ""
		fmt.Printf("======== %s\n", w)
		if err := Render(os.Stdout, sampleDoc(), f, o); err != nil {
			t.Fatal(err)
		}
	}
}
