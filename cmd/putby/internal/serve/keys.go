package serve

import (
	"crypto/rand"
	"crypto/subtle"
	"sync"
)

// tokenName is what the token is called in a link.
const tokenName = "token"

// A key is the token that lets the next browser in.
type key struct {
	mu   sync.Mutex
	next string
}

func newKey() *key { return &key{next: rand.Text()} }

// token returns the one that works next.
func (k *key) token() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.next
}

// take uses a token up, if it is the one that works. A token works once.
func (k *key) take(token string) bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	if subtle.ConstantTimeCompare([]byte(token), []byte(k.next)) != 1 {
		return false
	}
	k.next = rand.Text()
	return true
}
