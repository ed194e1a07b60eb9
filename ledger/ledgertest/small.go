package ledgertest

import "testing"

// Small reports whether a test is to leave out what is large or what it has tried in
// small already: when tests are asked to be short, and with the race detector, which
// makes everything many times slower and looks at what runs at once, not at sizes.
func Small() bool { return testing.Short() || raced }
