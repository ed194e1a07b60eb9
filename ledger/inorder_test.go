package ledger_test

import (
	"runtime"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"putby/ledger"
)

func upTo(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}

// Results come in the order of the list, however long each takes and however many
// work on them.
func TestInOrder(t *testing.T) {
	for _, workers := range []int{1, 2, 7} {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(workers))
		var got []int
		for i, square := range ledger.InOrder(upTo(50), func(i int) int {
			time.Sleep(time.Duration(50-i) * 20 * time.Microsecond) // the first take longest
			return i * i
		}) {
			if square != i*i {
				t.Fatalf("of %d comes %d", i, square)
			}
			got = append(got, i)
		}
		if !slices.Equal(got, upTo(50)) {
			t.Errorf("with %d workers the order is %v", workers, got)
		}
	}
}

// While nobody takes results, only so many are made as may wait: memory does not
// grow with the list.
func TestInOrderWindow(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(3))
	var made, taken atomic.Int64
	for range ledger.InOrder(upTo(100), func(i int) int {
		made.Add(1)
		return i
	}) {
		if taken.Add(1) < 10 {
			time.Sleep(2 * time.Millisecond) // workers could run ahead
		}
		if ahead := made.Load() - taken.Load(); ahead > 2*3+1 {
			t.Fatalf("%d results were made that nobody has taken", ahead)
		}
	}
	if made.Load() != 100 {
		t.Errorf("%d were made", made.Load())
	}
}

// Whoever breaks off leaves no work behind, and little of it is done.
func TestInOrderBrokenOff(t *testing.T) {
	var made, open atomic.Int64
	for i := range ledger.InOrder(upTo(1000), func(i int) int {
		made.Add(1)
		open.Add(1)
		defer open.Add(-1)
		time.Sleep(time.Millisecond)
		return i
	}) {
		if i == 3 {
			break
		}
	}
	if open.Load() != 0 {
		t.Errorf("%d still work", open.Load())
	}
	if most := int64(4 + 2*runtime.GOMAXPROCS(0) + 1); made.Load() > most {
		t.Errorf("%d were made of the first 4", made.Load())
	}
}

// A panic of the work is one of the caller, with what was wrong.
func TestInOrderPanic(t *testing.T) {
	defer func() {
		if v, _ := recover().(string); !strings.HasPrefix(v, "three\n") || !strings.Contains(v, "inorder_test.go") {
			t.Errorf("the panic says %q", v)
		}
	}()
	for i := range ledger.InOrder(upTo(10), func(i int) int {
		if i == 3 {
			panic("three")
		}
		return i
	}) {
		if i >= 3 {
			t.Errorf("%d comes after the panic", i)
		}
	}
}
