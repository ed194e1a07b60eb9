//go:build race

package ledgertest

const raced = true
