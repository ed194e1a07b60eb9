package main

import (
	"os"
	"runtime/debug"
	"runtime/metrics"
	"strconv"
	"strings"
	"sync"
	"time"
)

// A memoryGuard ends a command in a sentence before it takes more memory than
// there is, since the system would end it without one.
type memoryGuard struct {
	may   func() uint64 // bytes; 0: not known
	paced bool          // whether the collector goes by how much there is
}

// Memory is looked at so often. What a command can take in that time must fit
// into what is left when it is stopped.
const memoryLook = 10 * time.Millisecond

// guardMemory makes a guard that finds out how much memory the command can have
// while the command begins. The collector works harder as that is approached, and
// less where it is far.
func guardMemory() memoryGuard {
	g := memoryGuard{sync.OnceValue(limitMemory), os.Getenv("GOGC") == ""}
	if g.paced {
		debug.SetGCPercent(paceFor(0))
	}
	return g
}

// limitMemory tells the collector how much memory there is, and returns it.
func limitMemory() uint64 {
	may := freeMemory(os.ReadFile)
	if may > 0 && os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(int64(may / 4 * 3))
	}
	return may
}

// exceeded waits until nearly all memory is taken, and tells how much that is.
// Meanwhile it sets the collector's pace.
func (g memoryGuard) exceeded(stop <-chan struct{}) <-chan uint64 {
	full := make(chan uint64, 1)
	go func() {
		may := g.may()
		look := time.NewTicker(memoryLook)
		defer look.Stop()
		for pace := paceFor(0); ; {
			select {
			case <-stop:
				return
			case <-look.C:
				if next := paceFor(memoryInUse()); g.paced && next != pace {
					pace = next
					debug.SetGCPercent(pace)
				}
				if used := memoryTaken(); may > 0 && used >= may/8*7 {
					full <- used
					return
				}
			}
		}
	}()
	return full
}

// paceFor is how much more memory may be taken before the collector runs again,
// in percent of what was in use when it ran last: much of little, since a small
// command ends before it is worth while to collect, and little of much. (In an
// import of a million rows 15 in place of 25 takes a tenth less memory and a
// twentieth more time of the processor; 10 takes twice that time again.)
func paceFor(inUse uint64) int {
	const most, least, spare, much, ofMuch = 400, 25, 64 << 20, 200 << 20, 15
	if inUse > much {
		return ofMuch
	}
	percent := most
	if inUse > 0 {
		percent = int(min(spare*100/inUse, most))
	}
	return max(percent/10*10, least) // in steps, since each change halts the program
}

// memoryInUse is what the collector found in use when it ran last.
func memoryInUse() uint64 {
	sample := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(sample)
	return sample[0].Value.Uint64()
}

// memoryTaken is what this process has from the system, without what it gave
// back.
func memoryTaken() uint64 {
	samples := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}}
	metrics.Read(samples)
	return samples[0].Value.Uint64() - samples[1].Value.Uint64()
}

// freeMemory is the least of what the system says that there is for this process:
// memory not in use, the limit of its container, and of its addresses. 0: not
// known.
func freeMemory(read func(string) ([]byte, error)) (least uint64) {
	limit := func(bytes uint64, known bool) {
		if known && (least == 0 || bytes < least) {
			least = bytes
		}
	}
	limit(field(read, "/proc/meminfo", "MemAvailable:", 1, 1024))
	limit(field(read, "/sys/fs/cgroup/memory.max", "", 0, 1))
	limit(field(read, "/sys/fs/cgroup/memory/memory.limit_in_bytes", "", 0, 1))
	addresses, limited := field(read, "/proc/self/limits", "Max address space", 3, 1)
	if taken, known := field(read, "/proc/self/status", "VmSize:", 1, 1024); limited && known {
		limit(max(addresses, taken+1)-taken, true)
	}
	return least
}

// field reads a number out of the line of a file that begins with a name.
func field(read func(string) ([]byte, error), file, name string, at int, unit uint64) (uint64, bool) {
	text, err := read(file)
	if err != nil {
		return 0, false
	}
	for line := range strings.Lines(string(text)) {
		if words := strings.Fields(line); strings.HasPrefix(line, name) && len(words) > at {
			n, err := strconv.ParseUint(words[at], 10, 53)
			return n * unit, err == nil
		}
	}
	return 0, false
}
