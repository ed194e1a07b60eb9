package serve

import (
	"net"
	"net/http"
	"sync"
)

// unasked are connections on which nothing was asked yet. Browsers open some to
// spare, and a server that ends would wait for those for as long as for a request.
type unasked struct {
	mu   sync.Mutex
	open map[net.Conn]bool
}

// note is told of what becomes of a connection.
func (u *unasked) note(c net.Conn, state http.ConnState) {
	u.mu.Lock()
	defer u.mu.Unlock()
	if state == http.StateNew {
		u.open[c] = true
	} else {
		delete(u.open, c)
	}
}

// close closes them.
func (u *unasked) close() {
	u.mu.Lock()
	defer u.mu.Unlock()
	for c := range u.open {
		_ = c.Close() // nobody waits for it
	}
}
