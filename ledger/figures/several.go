package figures

import (
	"fmt"
	"strings"
)

// A SeveralError says that a query may mean any of several.
type SeveralError struct {
	What  string   // "tariff", or the name of records of several kinds
	Among []string // tariffs, or kinds of records
}

// Error lists what may be meant.
func (e *SeveralError) Error() string {
	return fmt.Sprintf("%s may be any of several: %s", e.What, strings.Join(e.Among, ", "))
}

// A LineError is of a query for a line of a record that has none.
type LineError struct{ Kind, Name string }

// Error names the record.
func (e *LineError) Error() string { return fmt.Sprintf("%s %s has no lines", e.Kind, e.Name) }
