// Package question reads what a person asks of a report, and says what is wrong
// with it in the person's own terms: the options of a command line, the cells of a
// file of offers, the fields of a form.
//
// # What it represents
//
// An [Option] is one fact of the question whether a sale is worth it: its name, its
// help and how its text is read. [Options] are those of a command's flags, of a
// form's fields and, with _ for -, of a file's columns; [WorthQuery.Set] reads one of
// them. [WhenTexts] and [MachineTexts] are questions that are typed whole.
// Amounts have a unit, durations are 30h, 8h24m or hours, money is a plain number
// in the ledger's currency.
//
// # How a question is answered
//
// [Worth], [Plan], [PlanOfFile], [Card], [When], [Next], [Machine], [Energy], [Trace],
// [TariffWeek], [OnHand] and [Offers] hand a question to the function of package
// report that answers it; [Asked] makes the same of any other report.
//
// # Errors
//
// A fault of [ErrOption] names the option that cannot be met, why, and what to write; a
// [*MissingError] names all facts that a question lacks, each with the option and
// the record that would give it; what is wrong with a file of offers are
// [ledger.Faults], each at its line and column. A [*figures.UnknownError] is passed on
// where a name is an argument.
package question
