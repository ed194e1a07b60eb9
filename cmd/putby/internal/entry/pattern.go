package entry

import (
	"regexp"
	"sync"
)

// pattern is a regular expression that is compiled when it is first asked for:
// most commands never ask, and all would wait for it at their start.
func pattern(text string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(text) })
}
