// Package energy places the electricity of a machine's cycle on the clock and
// prices it under a tariff.
package energy
