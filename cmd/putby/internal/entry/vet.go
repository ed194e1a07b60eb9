package entry

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"putby/ledger"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// A Verdict is what there is to say of rows before they are saved.
type Verdict struct {
	Odd   []string        // to be asked about where a person can be, and said otherwise
	Notes []report.Remark // to be said
	Twice *ledger.Fault   // the receipt that is there already: to be asked about, and refused otherwise
}

// Vet holds rows that are about to be added against the calendar and the
// household's own records. Its error is [ErrAhead] for a date ahead, and
// what cannot be read it leaves to the saving, which says why.
func Vet(rec *ledger.Records, rows []Row, at Moment) (Verdict, error) {
	var v Verdict
	if err := at.Ahead(rows); err != nil {
		return v, err
	}
	v.lookAgain(longPast(rec, rows, at))
	v.Notes = leftOut(rows, at)
	more, faults := withRows(rec, rows)
	if len(faults) > 0 {
		return v, nil
	}
	v.lookAgain(report.Implausible(rec, more))
	added := more.Receipts.From(rec.Receipts.Len())
	v.Twice = twice(rec, added.Slice(), "")
	return v, nil
}

// LookAgain says of what is odd that it may be a slip.
func LookAgain(odd string) string {
	if !strings.HasSuffix(odd, "?") {
		odd += "."
	}
	return "Look again: " + odd
}

func (v *Verdict) lookAgain(list []string) {
	for _, odd := range list {
		v.Odd = report.Once(v.Odd, LookAgain(odd))
	}
}

// dayOf reads the day of a cell that says when something happened.
func dayOf(c *ledger.Column, text string) (exact.Date, bool) {
	if !c.Happens() {
		return exact.NoDate, false
	}
	text = strings.TrimSpace(text)
	day, err := exact.ParseDate(text[:min(len(text), len("2025-02-28"))])
	return day, err == nil
}

// days are the days on which rows happened.
func days(rows []Row) []exact.Date {
	var list []exact.Date
	for _, row := range rows {
		for i := range row.Kind.Columns {
			c := &row.Kind.Columns[i]
			if day, ok := dayOf(c, row.Cells[c.Name]); ok {
				list = append(list, day)
			}
		}
	}
	return list
}

// Ahead refuses rows of days that are still to come, as [ErrAhead].
func (m Moment) Ahead(rows []Row) error {
	for _, day := range days(rows) {
		if err := m.aheadDay(day); err != nil {
			return err
		}
	}
	return nil
}

// LastDay is the last day that records may be of, where not any may be. A ledger
// that is kept as an example may go on from its day to the clock's.
func (m Moment) LastDay() exact.Opt[exact.Date] {
	if m.AnyDay {
		return exact.Opt[exact.Date]{}
	}
	return exact.Some(max(m.Today, m.Clock))
}

// AheadCell refuses a day that is still to come, as [ErrAhead]; all other
// cells it lets pass.
func (m Moment) AheadCell(c *ledger.Column, text string) error {
	if day, ok := dayOf(c, text); ok {
		return m.aheadDay(day)
	}
	return nil
}

func (m Moment) aheadDay(day exact.Date) error {
	if last, limited := m.LastDay().Get(); limited && day > last {
		return &ledger.Fault{Kind: ErrAhead, What: fmt.Sprintf("%s is %s ahead", m.Locale.Date(day), day.Distance(last))}
	}
	return nil
}

// leftOut says which day is after the one at which the ledger stands.
func leftOut(rows []Row, at Moment) []report.Remark {
	for _, day := range days(rows) {
		switch {
		case day <= at.Today:
		case at.Today < at.Clock && day <= at.Clock:
			return report.Remarks(fmt.Sprintf("%s is after %s, the day at which this ledger stands (setting as_of): reports leave it out, but those of that day or a later one.", at.Locale.Date(day), at.Locale.Date(at.Today)))
		default:
			return report.Remarks(fmt.Sprintf("%s is %s ahead: it counts from that day on.", at.Locale.Date(day), day.Distance(at.Today)))
		}
	}
	return nil
}

// daysOf are the days of the first and the last record up to today.
func daysOf(rec *ledger.Records, today exact.Date) (first, last exact.Date) {
	rec.EachDate(func(d exact.Date) {
		if d > today {
			return
		}
		if last = max(last, d); first == exact.NoDate || d < first {
			first = d
		}
	})
	return first, last
}

// longPast tells of a day that is likely to be of another year: more than a year
// before the last record, about a year before it or before today, or more than a
// month before the first record.
func longPast(rec *ledger.Records, rows []Row, at Moment) []string {
	first, last := daysOf(rec, at.Today)
	if last == exact.NoDate {
		return nil
	}
	for _, day := range days(rows) {
		shown := at.Locale.Date
		switch {
		case day < last.AddMonths(-12):
			return []string{fmt.Sprintf("%s is %s before the last record, which is of %s", shown(day), last.Distance(day), shown(last))}
		case yearBefore(day, last) && day.AddMonths(12) <= at.Today:
			return []string{fmt.Sprintf("%s is about a year before the last record, which is of %s", shown(day), shown(last))}
		case yearBefore(day, at.Today) && day.AddMonths(12) <= at.Today && (day < last.AddDays(-aboutDays) || day > last.AddDays(aboutDays)): // else a past year is being entered
			return []string{fmt.Sprintf("%s is about a year before today, which is %s", shown(day), shown(at.Today))}
		case day < first.AddMonths(-1):
			return []string{fmt.Sprintf("%s is %s before the first record, which is of %s", shown(day), first.Distance(day), shown(first))}
		}
	}
	return nil
}

// aboutDays is by how many days about a year may be more or less than one.
const aboutDays = 31

// yearBefore reports whether a day is about a year before another.
func yearBefore(day, than exact.Date) bool {
	year := day.AddMonths(12)
	return than.AddDays(-aboutDays) <= year && year <= than.AddDays(aboutDays)
}

// twice finds the receipt that rows repeat, other than one: of the same shop and day,
// with the same lines in any order. Printed totals do not count.
func twice(rec *ledger.Records, rows []ledger.ReceiptRow, but string) *ledger.Fault {
	lines := linesOf(rows)
	if len(lines) == 0 {
		return nil
	}
	day, shop := rows[0].Date, anyCase(rows[0].Shop)
	there := rec.Receipts.Only(func(r *ledger.ReceiptRow) bool { return r.Receipt != but && r.Date == day && anyCase(r.Shop) == shop })
	for _, id := range there.Distinct(func(r *ledger.ReceiptRow) string { return r.Receipt }) {
		other := there.Only(func(r *ledger.ReceiptRow) bool { return r.Receipt == id })
		if slices.Equal(lines, linesOf(other.Slice())) {
			return &ledger.Fault{Kind: ErrAgain, What: fmt.Sprintf("receipt %s of %v from %s has the same lines already", id, day, cmp.Or(rows[0].Shop, "no shop"))}
		}
	}
	return nil
}

// anyCase writes a name so that it compares equal in any case. [ledger.Fold] goes further:
// shops that an accent or a mark tells apart are two.
func anyCase(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// linesOf writes what the lines of a receipt say, sorted. A receipt-wide
// amount is told by what it is on only as far as it is on all lines or not,
// since their numbers may differ.
func linesOf(rows []ledger.ReceiptRow) []string {
	var list []string
	for i := range rows {
		r := &rows[i]
		if r.Kind == ledger.TotalLine {
			continue
		}
		list = append(list, fmt.Sprintf("%v|%s|%s|%v|%v %v|%v|%v|%v|%v",
			r.Kind, anyCase(r.Item), anyCase(r.Note()), r.Count, r.Size.Base().Number(), r.Size.Unit().Dimension(), r.Price, r.Discount(), r.Tax(), len(r.On()) == 0))
	}
	slices.Sort(list)
	return list
}
