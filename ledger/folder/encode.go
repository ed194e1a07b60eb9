package folder

import (
	"crypto/rand"
	"encoding/json"
	"io"
	"iter"
	"slices"
	"strings"
	"unicode/utf8"
)

// encode writes a change as it is kept, in JSON. What is large in it is written
// piece by piece, since the whole of it may be as large as an import.
func (c *Change) encode(w io.StringWriter) error {
	const large = 1 << 20
	stand := rand.Text() // for a large text, until it is written in its place
	var texts []Text
	frame := *c
	frame.Files = slices.Clone(c.Files)
	for i := range frame.Files {
		frame.Files[i].Hunks = slices.Clone(c.Files[i].Hunks)
		for j := range frame.Files[i].Hunks {
			h := &frame.Files[i].Hunks[j]
			for _, text := range []*Text{&h.Removed, &h.Added} {
				if len(*text) > large && utf8.ValidString(string(*text)) {
					texts = append(texts, *text)
					*text = Text(stand)
				}
			}
		}
	}
	data, err := json.MarshalIndent(&frame, "", " ")
	if err != nil {
		return err
	}
	for i, part := range strings.Split(string(data)+"\n", `"`+stand+`"`) {
		if i > 0 {
			err = texts[i-1].write(w)
		}
		if err == nil {
			_, err = w.WriteString(part)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// write writes a text that is UTF-8 as a string of JSON.
func (t Text) write(w io.StringWriter) error {
	_, err := w.WriteString(`"`)
	var room strings.Builder
	for piece := range pieces(string(t)) {
		if err != nil {
			return err
		}
		room.Reset()
		if err = json.NewEncoder(&room).Encode(piece); err == nil {
			_, err = w.WriteString(room.String()[1 : room.Len()-2]) // without quotes and line end
		}
	}
	if err == nil {
		_, err = w.WriteString(`"`)
	}
	return err
}

// pieces goes through a text in pieces that do not cut a character in two.
func pieces(text string) iter.Seq[string] {
	const size = 64 << 10
	return func(yield func(string) bool) {
		for text != "" {
			end := min(size, len(text))
			for end < len(text) && end > size-utf8.UTFMax && !utf8.RuneStart(text[end]) {
				end--
			}
			if !yield(text[:end]) {
				return
			}
			text = text[end:]
		}
	}
}
