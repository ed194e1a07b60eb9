package intake

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"putby/ledger"
	"putby/pricing/exact"
)

// An hourText is what a row says of its time.
type hourText struct {
	date  exact.Date // by the clock that the text shows; NoDate where it counts seconds since 1970
	clock clock
	zone  string               // the clock's, such as CEST; blank where the text has none
	at    exact.Opt[time.Time] // not given: a clock time without an offset, still to be placed in the zone
}

// readTimes finds out when each row's price begins, and where the row says so
// when it ends.
func (h *hourly) readTimes() error {
	if err := h.checkZone(); err != nil {
		return err
	}
	order := h.o.Order
	if order == AnyOrder {
		var x evidence
		for _, r := range h.rows {
			from, _, _ := cutInterval(cellAt(r.cells, max(h.columns.time, h.columns.date)))
			from, _ = cutZone(from)
			x.seeDate(r.line, from)
		}
		var bad *ledger.Fault
		if order, bad = x.order(); bad != nil {
			return bad
		}
	}
	if h.columns.label >= 0 || len(h.columns.hours) > 0 {
		return h.readNumbered(order)
	}
	h.readClocks(order)
	return nil
}

// checkZone takes the zone that a header names, and refuses another than the
// ledger's.
func (h *hourly) checkZone() error {
	zones := map[string][2]string{"cet": {"CET", "CEST"}, "cest": {"CET", "CEST"}, "eet": {"EET", "EEST"}, "eest": {"EET", "EEST"}, "wet": {"WET", "WEST"}, "bst": {"GMT", "BST"}, "est": {"EST", "EDT"}, "edt": {"EST", "EDT"}, "cst": {"CST", "CDT"}, "pst": {"PST", "PDT"}, "aest": {"AEST", "AEDT"}}
	// A header may name the zone's clock as it is in January or as it is in July.
	winter, _ := time.Date(2025, 1, 15, 0, 0, 0, 0, time.UTC).In(h.o.Zone).Zone()
	summer, _ := time.Date(2025, 7, 15, 0, 0, 0, 0, time.UTC).In(h.o.Zone).Zone()
	for _, w := range words(h.columns.timeName) {
		switch known, ok := zones[w]; {
		case w == "utc" || w == "gmt":
			h.o.Zone = time.UTC
			return nil
		case ok && !slices.Contains(known[:], winter) && !slices.Contains(known[:], summer):
			return &ledger.Fault{
				Kind: ErrFormat, Line: h.all[h.columns.header].Line,
				What:   "the times are those of " + strings.ToUpper(w) + ", as the column " + exact.Quote(h.columns.timeName) + " says, and the clock of " + h.o.Zone.String() + " shows " + winter,
				Choice: ledger.FileZone,
			}
		}
	}
	return nil
}

// failZone notes a fault of a time that the zone's clock does not show, or not
// twice: the file's clock may be another.
func (h *hourly) failZone(line int, hint, format string, args ...any) {
	h.add(ledger.Fault{Line: line, Field: h.columns.timeName, What: fmt.Sprintf(format, args...), Hint: hint, Choice: ledger.OtherZone})
}

// readClocks reads times that have a date and a clock time, or are instants. Of
// two instants that one clock time may be, it is the one that follows the row
// before; files that begin with the newest are read from their end.
func (h *hourly) readClocks(order Order) {
	c := &h.columns
	texts := make([]hourText, len(h.rows))
	for i := range h.rows {
		texts[i] = h.timeOf(&h.rows[i], order)
	}
	if len(h.faults) > 0 {
		return
	}
	if n := len(texts); n > 1 && (texts[n-1].date < texts[0].date || texts[n-1].date == texts[0].date && texts[n-1].clock.sec < texts[0].clock.sec && texts[0].date > 0) {
		slices.Reverse(texts)
		slices.Reverse(h.rows)
	}
	last := time.Time{}
	for i := range h.rows {
		r := &h.rows[i]
		at, ok := h.instant(r.line, texts[i], last)
		if !ok {
			continue
		}
		r.from, last = at, at
		end := cellAt(r.cells, c.end)
		ends := end != ""
		if !ends {
			_, end, ends = cutInterval(cellAt(r.cells, max(c.time, c.clock))) // there is but one of them
		}
		if ends {
			h.readEnd(r, end, order)
		}
	}
}

// timeOf reads a row's time, or the beginning of it.
func (h *hourly) timeOf(r *hourRow, order Order) hourText {
	text := cellAt(r.cells, h.columns.time)
	if h.columns.time < 0 {
		date, _, _ := cutInterval(cellAt(r.cells, h.columns.date))
		text = date + " " + cellAt(r.cells, h.columns.clock)
	}
	from, _, _ := cutInterval(text)
	t, ok := h.read(from, order)
	if !ok {
		h.fail(r.line, h.columns.timeName, hintTime, "%s is not a time", exact.Quote(text))
	}
	return t
}

// read reads a time with its date.
func (h *hourly) read(text string, order Order) (t hourText, ok bool) {
	if ns, ok := epochTime(text); ok {
		t.at = exact.Some(time.Unix(0, ns))
		return t, true
	}
	text, t.zone = cutZone(text)
	if t.date, t.clock, ok = h.dated(text, order); !ok || !t.clock.given {
		return t, false
	}
	if t.zone == "UTC" || t.zone == "GMT" && t.clock.offset == "" {
		t.clock.offset = "Z"
	}
	if t.clock.offset != "" {
		t.at = exact.Some(time.Unix(t.date.UnixDays()*daySeconds+int64(t.clock.sec-t.clock.east), 0))
	}
	return t, true
}

// dated reads a date, and the time of day behind it if there is one.
func (h *hourly) dated(text string, order Order) (date exact.Date, c clock, ok bool) {
	if n, ok := stored(text); ok && h.form.Workbook && !isCompact(text) {
		date, sec, err := serialDate{n, h.form.From1904}.moment()
		return date, clock{given: true, sec: (sec + 30) / 60 * 60}, err == nil // stored as a binary fraction of a day
	}
	w, err := takeApart(text)
	if err != nil {
		return exact.NoDate, c, false
	}
	date, ok = w.in(order)
	return date, w.clock, ok
}

// instant is that of a time; of a clock time without an offset that which follows
// another.
func (h *hourly) instant(line int, t hourText, last time.Time) (time.Time, bool) {
	if at, ok := t.at.Get(); ok {
		return at, true
	}
	first, shown := exact.LocalTime(t.date, t.clock.sec, h.o.Zone)
	clock := formatMoment(t.date, clock{sec: t.clock.sec})
	if !shown {
		h.failZone(line, "", "the clocks of %s never show %s", h.o.Zone, clock)
		return first, false
	}
	second := exact.ShownAgain(first)
	switch {
	case second.Equal(first):
		if first.Equal(last) {
			h.failZone(line, "keep one of the two", "%s is there twice, and the clocks of %s show it once", clock, h.o.Zone)
			return first, false
		}
		return first, true
	case t.zone != "":
		for _, at := range []time.Time{first, second} {
			if name, _ := at.Zone(); name == t.zone { // a name that is neither's tells nothing
				return at, true
			}
		}
	}
	if first.After(last) {
		return first, true
	}
	if !second.After(last) {
		h.failZone(line, "keep one of them", "%s is there three times, and the clocks of %s show it twice", clock, h.o.Zone)
	}
	return second, true
}

// readEnd reads when a row ends: a time, or a clock time after its beginning.
func (h *hourly) readEnd(r *hourRow, text string, order Order) {
	if t, ok := h.read(text, order); ok {
		if at, ok := h.instant(r.line, t, r.from); ok && at.After(r.from) {
			r.until = at
		}
		return // a clock set back makes some ends come out before their beginnings: the next row tells then
	}
	c, ok := readClock(text)
	if n, isLabel := readLabel(text); isLabel && n.n <= 24 { // which is no clock time
		c, ok = clock{sec: n.n * 3600}, true
	}
	if !ok && text != "24:00" {
		h.fail(r.line, h.columns.timeName, hintTime, "%s is not a time", exact.Quote(text))
		return
	}
	local := r.from.In(h.o.Zone)
	sec := local.Hour()*3600 + local.Minute()*60
	// An end of 0:00 is the midnight after.
	length := time.Duration((c.sec-sec+daySeconds)%daySeconds) * time.Second
	if length > 0 && length <= time.Hour { // else the row after tells
		r.until = r.from.Add(length)
	}
}

// cutInterval cuts "from - to", as in 00:00 - 01:00, and reports whether there
// are two.
func cutInterval(text string) (from, to string, ok bool) {
	plain := strings.NewReplacer("–", "-", "—", "-").Replace(text)
	for _, mark := range []string{" - ", " to ", " bis ", "/"} {
		from, to, ok = strings.Cut(plain, mark)
		// A slash is ISO 8601's between two times, and else one within a date.
		if ok && (mark != "/" || strings.Contains(from, "T") && strings.Contains(to, ":")) {
			return strings.TrimSpace(from), strings.TrimSpace(to), true
		}
	}
	if a, b, ok := strings.Cut(plain, "-"); ok && strings.Contains(a, ":") && strings.Count(plain, "-") == 1 && len(a) <= 5 && len(b) <= 5 {
		if _, clock := readClock(strings.TrimSpace(a)); clock { // 00:00-01:00, and no offset
			return strings.TrimSpace(a), strings.TrimSpace(b), true
		}
	}
	return strings.TrimSpace(text), "", false
}

// cutZone cuts the name of a zone's clock off a time, as in 02:00 (CEST).
func cutZone(text string) (rest, zone string) {
	rest = strings.TrimRight(text, " ")
	inner, in := strings.CutSuffix(rest, ")")
	word := inner[len(strings.TrimRight(inner, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")):]
	if len(word) < 3 || len(word) > 4 || !strings.Contains(rest, ":") {
		return text, ""
	}
	rest = strings.TrimSuffix(inner, word)
	if in {
		rest = strings.TrimSuffix(rest, "(")
	}
	return strings.TrimSpace(rest), word
}
