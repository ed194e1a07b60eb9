// Package report holds what putby tells, as typed models: values with their
// units, exact digits and doubts, and no text layout. Renderers read only
// these models. Each report is built from a joined ledger by a function of its
// own file.
package report
