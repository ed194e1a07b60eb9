// Putby is a ledger for a household that buys food while it is cheap,
// freeze-dries it, and wants to know what a litre really costs.
//
// # How a command is built
//
// branches (root.go) has a row for each command below the root, with the function that
// builds it; a line that names its command first has that one built alone. A command is
// an options struct with its flags and a function of app, which holds what a command
// line is carried out with: its environment, its clock, what it has saved.
//
// # Reports
//
// newReportCommand (report_command.go) makes the command of a report from its texts and
// a reporting: the flags, what reads them into a query, and the function of package
// question or report that answers it. It reads the ledger and the day at which it stands (stand.go),
// joins it as the report needs, and prints in the format that is asked for. Reports of
// many households go through across (households.go).
//
// # Recording
//
// What is recorded is an act of package entry, which makes a draft of a ledger and asks
// nobody. [app.act] saves one, and [app.amend] one of records that are there. Where they ask
// about what is unlikely, they do so before they lock, and make the draft again of the
// ledger as it is under the lock. [app.add] makes a draft with a conversation where somebody
// is there to be asked (draft.go, package ask), and as act does where nobody is.
// withBook and edit (book.go) are the one way to a change; every kind of record
// has add, list and show from its columns (record.go).
//
// # How a command ends
//
// Errors are worded in say.go, with the flags to type in hint.go; exit.go maps their
// kinds to the exit status, and saved.go holds what was saved against what went wrong
// after it. A panic is caught where the command runs (defect.go).
package main
