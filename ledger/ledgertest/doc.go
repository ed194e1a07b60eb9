// Package ledgertest makes up ledgers of any size for tests and benchmarks.
//
// One household-decade is ten years of a household that buys, dries, packs and
// eats: about 4,000 receipt lines, 1,000 runs of 6 phases, 4,000 packs and
// 4,000 draws. Larger ones are that many households that share their foods, each
// with its own machine. All is invented. A ledger is consistent: what is loaded
// has been bought, what is drawn has been packed, receipts add up and no machine
// runs twice at once. The same seed and size give the same bytes.
//
// [Files] makes such a ledger, [Write] writes it into a folder, and [Read] turns files
// into records without one. [AtOnce] and [Small] say which tests run with the race
// detector.
package ledgertest
