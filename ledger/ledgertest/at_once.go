package ledgertest

import (
	"flag"
	"fmt"
	"os"
	"reflect"
	"runtime"
	"strings"
	"testing"
)

// AtOnce is m; with the race detector it runs these tests alone, unless -run names
// others. The detector makes everything many times slower, and looks at what runs at
// once. A package whose tests take long names those that have such a thing, and the
// gate runs all of them without it too.
func AtOnce(m *testing.M, tests ...func(*testing.T)) interface{ Run() int } {
	return atOnce{m, tests}
}

type atOnce struct {
	m     *testing.M
	tests []func(*testing.T)
}

func (a atOnce) Run() int {
	flag.Parse()
	if run := flag.Lookup("test.run").Value; raced && len(a.tests) > 0 && run.String() == "" {
		var names []string
		for _, test := range a.tests {
			name := runtime.FuncForPC(reflect.ValueOf(test).Pointer()).Name()
			names = append(names, name[strings.LastIndexByte(name, '.')+1:])
		}
		if err := run.Set("^(" + strings.Join(names, "|") + ")$"); err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 2
		}
	}
	return a.m.Run()
}
