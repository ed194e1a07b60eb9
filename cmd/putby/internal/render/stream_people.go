package render

import (
	"slices"

	"putby/ledger/report"
)

// mostJoint is how many rows of several households people are shown in one table.
// The next households begin another, with its own widths: memory stays flat, and a
// table has to be laid out whole.
const mostJoint = 1000

// A joint is a table of several households in the making.
type joint struct {
	doc        report.Doc
	households []string
	notes      []jointNote // each text once, with whose it is
	any        bool        // something was written before it
}

// A jointNote is a note of one household or several.
type jointNote struct {
	text string
	of   []string
}

// people adds a household's table to the one that is being made, if it fits there.
func (s *Stream) people(d report.Doc, household string) error {
	t := d.Fields[0].Node.(*report.Table)
	if len(s.joint.households) > 0 && !s.joint.takes(d) {
		if err := s.flush(); err != nil {
			return err
		}
	}
	j := &s.joint
	if len(j.households) == 0 {
		j.doc = d
	} else {
		all := j.doc.Fields[0].Node.(*report.Table)
		all.Rows = append(all.Rows, t.Rows...)
	}
	j.households = append(j.households, household)
	for _, note := range d.Foot() {
		at := slices.IndexFunc(j.notes, func(n jointNote) bool { return n.text == note })
		if at < 0 {
			at = len(j.notes)
			j.notes = append(j.notes, jointNote{text: note})
		}
		j.notes[at].of = append(j.notes[at].of, household)
	}
	return nil
}

// takes reports whether a household's table may go on with the one in the making:
// one title, currency, columns and units for all of it.
func (j *joint) takes(d report.Doc) bool {
	all, t := j.doc.Fields[0].Node.(*report.Table), d.Fields[0].Node.(*report.Table)
	return len(all.Rows)+len(t.Rows) <= mostJoint && j.doc.Title == d.Title && j.doc.Currency == d.Currency && j.doc.Show == d.Show &&
		slices.Equal(all.Columns, t.Columns)
}

// flush writes the table in the making, if there is one.
func (s *Stream) flush() error {
	j := s.joint
	if len(j.households) == 0 {
		return nil
	}
	j.doc.Notes, j.doc.Cautions = nil, nil
	for _, n := range j.notes {
		if len(n.of) < len(j.households) {
			n.text = report.Some(n.of) + ": " + n.text
		}
		j.doc.Notes = append(j.doc.Notes, n.text)
	}
	s.joint = joint{any: j.any}
	return s.block(j.doc)
}

// block writes a report with a blank line before it, if it is not the first.
func (s *Stream) block(d report.Doc) error {
	if s.joint.any {
		s.w.WriteByte('\n')
	}
	s.joint.any = true
	o := s.o
	o.Section = ""
	if err := Render(s.w, d, s.format, o); err != nil {
		return err
	}
	return s.w.Flush()
}
