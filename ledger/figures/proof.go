package figures

import (
	"slices"

	"putby/ledger"
)

// Proof returns the identities of the ledger at its date. The error is
// [ErrUnbalanced] when one does not hold; they are returned all the same.
func Proof(g *ledger.Ledger) ([]ledger.Identity, error) {
	identities := g.Identities()
	if slices.ContainsFunc(identities, func(i ledger.Identity) bool { return !i.Holds() }) {
		return identities, ErrUnbalanced
	}
	return identities, nil
}
