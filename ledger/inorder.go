package ledger

import (
	"iter"
	"runtime"
	"sync"
)

// InOrder does the work on each of list, by as many workers as there are
// processors, and gives what comes of it in the order of list. Workers keep at most
// that many results waiting, so that memory does not grow with the list. Whoever
// breaks off waits for the work that has begun. A panic of the work is then a panic
// of the caller.
func InOrder[T, R any](list []T, work func(T) R) iter.Seq2[T, R] {
	return func(yield func(T, R) bool) {
		var begun sync.WaitGroup
		defer begun.Wait()
		stop := make(chan struct{})
		defer close(stop)
		workers := runtime.GOMAXPROCS(0)
		places := make(chan chan done[R], workers) // in the order of list
		begun.Go(func() {
			defer close(places)
			free := make(chan struct{}, workers)
			for _, one := range list {
				place := make(chan done[R], 1)
				select {
				case <-stop:
					return
				case places <- place:
				}
				free <- struct{}{}
				begun.Go(func() {
					var d done[R]
					d.panic = try(func() { d.result = work(one) })
					place <- d
					<-free
				})
			}
		})
		for _, one := range list {
			d := <-<-places
			if d.panic != "" {
				panic(d.panic)
			}
			if !yield(one, d.result) {
				return
			}
		}
	}
}

// done is the result of some work, or what its panic said.
type done[R any] struct {
	result R
	panic  string
}
