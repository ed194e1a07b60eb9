package ledger

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"slices"
	"sync"
	"sync/atomic"
)

// Parallel calls all of do side by side, and returns when all have. A panic of
// one is then a panic of its caller, who can say what failed.
func Parallel(do ...func()) {
	var wg sync.WaitGroup
	panics := make(chan string, len(do))
	for _, f := range do {
		wg.Go(func() {
			if failed := try(f); failed != "" {
				panics <- failed
			}
		})
	}
	wg.Wait()
	if len(panics) > 0 {
		panic(<-panics)
	}
}

// try calls do, and returns what its panic said and where that was; empty where it
// did not panic.
func try(do func()) (failed string) {
	defer func() {
		if v := recover(); v != nil {
			failed = fmt.Sprintf("%v\n\n%s", v, debug.Stack())
		}
	}()
	do()
	return ""
}

// ParallelEach calls do for every item, as many at once as there are processors.
func ParallelEach[T any](items []T, do func(T)) {
	var next atomic.Int64
	work := func() {
		for {
			i := int(next.Add(1)) - 1
			if i >= len(items) {
				return
			}
			do(items[i])
		}
	}
	Parallel(slices.Repeat([]func(){work}, min(runtime.GOMAXPROCS(0), len(items)))...)
}
