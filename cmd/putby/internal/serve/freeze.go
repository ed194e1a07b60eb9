package serve

import (
	"putby/cmd/putby/internal/entry"
	"putby/cmd/putby/internal/page"
	"putby/ledger/folder"
)

// The form of the command freeze; about lets it be judged by the foods that its lines name.
var freezeForm = recording{
	seldom: true,
	path:   "freeze", link: "Freeze", title: "Put into the freezer",
	intro:  "Fresh food that waits in the freezer for the machine. What went into the machine or was eaten that day needs no record here.",
	groups: freezeGroups, draft: freezeDraft,
	about: func(f *filling) (folder.Scope, bool) {
		return entry.AboutThings(append([]string{}, f.lines("things")...))(f.Records)
	},
	parts: map[string]string{"rows": "things"},
}

func freezeGroups(f *filling) []page.Group {
	return []page.Group{{Title: "Into the freezer", Fields: []page.Field{
		f.thingsField("things", "what", "0.5 kg onions, one food a line; a name alone is all of it that is not frozen yet"),
		f.column("frozen", "date", f.At.Today.String()),
		f.column("frozen", "note", ""),
	}}}
}

func freezeDraft(f *filling) (*entry.Draft, error) {
	return entry.Freeze(f.Base, entry.FreezeIn{Things: f.lines("things"), Date: f.text("date", ""), Note: f.text("note", "")})
}
