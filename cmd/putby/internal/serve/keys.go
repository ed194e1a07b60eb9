package serve

import (
	"crypto/rand"
	"crypto/subtle"
	"strconv"
	"sync"
)

// tokenName is what the token is called in a link.
const tokenName = "token"

// cookieName is what a server's cookie is called. Browsers do not tell the ports
// of a machine apart, so the name does.
func cookieName(port int) string { return "putby-" + strconv.Itoa(port) }

// keys are the token that lets the next browser in, and the sessions of those
// that are in.
type keys struct {
	mu       sync.Mutex
	next     string
	sessions map[string]bool
}

func newKeys() *keys { return &keys{next: rand.Text(), sessions: map[string]bool{}} }

// token returns the one that works next.
func (k *keys) token() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.next
}

// trade takes a token for a session. A token works once.
func (k *keys) trade(token string) (session string, ok bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if subtle.ConstantTimeCompare([]byte(token), []byte(k.next)) != 1 {
		return "", false
	}
	k.next, session = rand.Text(), rand.Text()
	k.sessions[session] = true
	return session, true
}

// knows reports whether a session is one that was traded.
func (k *keys) knows(session string) bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.sessions[session]
}
