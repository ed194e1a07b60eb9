package ledger

import (
	"fmt"
	"runtime/debug"
	"sync"
)

// Together calls all of do side by side, and returns when all have. A panic of
// one is then a panic of its caller, who can say what failed.
func Together(do ...func()) {
	var wg sync.WaitGroup
	panics := make(chan string, len(do))
	for _, f := range do {
		wg.Go(func() {
			defer func() {
				if v := recover(); v != nil {
					panics <- fmt.Sprintf("%v\n\n%s", v, debug.Stack())
				}
			}()
			f()
		})
	}
	wg.Wait()
	if len(panics) > 0 {
		panic(<-panics)
	}
}
