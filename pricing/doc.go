// Package pricing knows what things cost in a shop: what each line of a
// receipt comes to, what a shelf asks for a unit, what an offer takes off, and
// whether a sale is worth buying in bulk to dry.
package pricing
