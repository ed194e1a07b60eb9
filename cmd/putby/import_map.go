package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/intake"
)

// mapOptions are the flags that choose a map and mend it.
type mapOptions struct {
	mapName               string
	columns, values, hows []string
	dates, decimal        string
	newNames              []string
}

func (o *mapOptions) add(cmd *cobra.Command, target intake.Target) {
	f := cmd.Flags()
	f.StringVar(&o.mapName, "map", "", "`map`, by its name (the only one for "+target.String()+")")
	f.StringArrayVar(&o.columns, "column", nil, "`COLUMN=HEADER` that fills a column of the ledger; again for each")
	f.StringArrayVar(&o.values, "value", nil, "`COLUMN=VALUE` that no column of the file has; again for each")
	f.StringArrayVar(&o.hows, "how", nil, "`COLUMN=WORDS` that say how its cells are read; again for each")
	f.StringArrayVar(&o.newNames, "name", nil, "`TEXT=ITEM`, what the ledger calls it, or TEXT=ITEM SIZE; again for each")
	f.StringVar(&o.dates, "dates", "", "`order` of dates: dmy, mdy or ymd (found out)")
	f.StringVar(&o.decimal, "decimal", "", "`sign` of decimals: point or comma (found out)")
	fixed(cmd, "dates", "dmy", "mdy", "ymd")
	fixed(cmd, "decimal", "point", "comma")
	var columns []string
	for _, c := range target.Columns() {
		columns = append(columns, c+"=")
	}
	for _, flag := range []string{"column", "value", "how"} {
		_ = cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(columns, cobra.ShellCompDirectiveNoFileComp|cobra.ShellCompDirectiveNoSpace))
	}
}

// readKept reads the maps and names that the ledger keeps, and adds the names
// that flags give.
func (im *importing) readKept(b *folder.Book) error {
	im.news = false
	_, err := b.Try("import", func(tx *folder.Tx) error {
		text, err := tx.ReadFile(intake.MapsFile)
		if err != nil {
			return err
		}
		var faults ledger.Faults
		if im.maps, faults = intake.ParseMaps(string(text)); len(faults) > 0 {
			return faults
		}
		if text, err = tx.ReadFile(intake.NamesFile); err != nil {
			return err
		}
		im.names, faults = intake.ParseNames(string(text))
		return faults.Err()
	})
	return err
}

// keptMap finds the map named, or the only one for the target; nil where there
// is none yet.
func (im *importing) keptMap() (*intake.Map, error) {
	var fit []string
	var found *intake.Map
	for i := range im.maps {
		if m := &im.maps[i]; m.Target == im.target && (im.mapName == "" || m.Name == im.mapName) {
			fit, found = append(fit, m.Name), m
		}
	}
	if len(fit) > 1 {
		return nil, usageError{fmt.Errorf("%s has several maps for %v: name one of them with --map: %s", intake.MapsFile, im.target, strings.Join(fit, ", "))}
	}
	return found, nil
}

// choose returns the kept map, or proposes one; either as mended by the flags.
func (im *importing) choose(kept *intake.Map, t *intake.Table, rec *ledger.Records) (intake.Map, error) {
	var m intake.Map
	var missing error
	if kept != nil {
		m = *kept
		m.Fills = slices.Clone(m.Fills)
	} else {
		name := im.mapName
		if name == "" {
			name = im.target.String()
		}
		m, missing = intake.Propose(t, im.target, name, rec)
		im.news = true
	}
	mended, err := im.mend(&m)
	if err != nil {
		return m, err
	}
	if missing != nil && !mended {
		return m, im.about(missing)
	}
	im.news = im.news || mended
	return m, im.addNames(m.Name)
}

// mend changes a map as the flags say.
func (o *mapOptions) mend(m *intake.Map) (mended bool, err error) {
	for _, part := range []struct {
		texts []string
		set   func(f *intake.Fill, text string) error
	}{
		{o.columns, func(f *intake.Fill, text string) error { f.From = text; return nil }},
		{o.values, func(f *intake.Fill, text string) error { f.Value = text; return nil }},
		{o.hows, func(f *intake.Fill, text string) (err error) { f.How, err = intake.ParseHow(text); return err }},
	} {
		for _, text := range part.texts {
			column, value, found := strings.Cut(text, "=")
			if !found || !slices.Contains(m.Target.Columns(), column) {
				return mended, mistyped(fmt.Sprintf("%q does not begin with a column of the ledger and =", text), targetHint(m.Target, column))
			}
			if err := part.set(fillOf(m, column), value); err != nil {
				return mended, usageError{err}
			}
			mended = true
		}
	}
	m.Fills = slices.DeleteFunc(m.Fills, func(f intake.Fill) bool { return f.From == "" && f.Value == "" })
	return o.mendForm(m, mended)
}

// mendForm sets what the flags say of dates and numbers.
func (o *mapOptions) mendForm(m *intake.Map, mended bool) (bool, error) {
	var err error
	if o.dates != "" {
		m.Dates, err = intake.ParseOrder(o.dates)
	}
	if o.decimal != "" && err == nil {
		m.Decimal, err = intake.ParseDecimal(o.decimal)
	}
	if err != nil {
		return mended, usageError{err}
	}
	return mended || o.dates != "" || o.decimal != "", nil
}

// fillOf finds the fill of a column, or adds one.
func fillOf(m *intake.Map, column string) *intake.Fill {
	for i := range m.Fills {
		if m.Fills[i].Column == column {
			return &m.Fills[i]
		}
	}
	m.Fills = append(m.Fills, intake.Fill{Column: column})
	return &m.Fills[len(m.Fills)-1]
}

// targetHint says which column was probably meant, or which there are.
func targetHint(t intake.Target, column string) string {
	if near := ledger.Nearest(column, t.Columns()); near != "" {
		return near + "="
	}
	return "the columns are " + strings.Join(t.Columns(), " ")
}

// addNames adds the names that flags give, for this map.
func (im *importing) addNames(mapName string) error {
	for _, text := range im.newNames {
		name, item, found := strings.Cut(text, "=")
		if !found || name == "" || item == "" {
			return usageError{fmt.Errorf("%q is not TEXT=ITEM", text)}
		}
		item, size, _ := strings.Cut(item, " ")
		n := intake.Name{Map: mapName, Name: name, Item: item, Size: size}
		if item == intake.Omit || item == "skip" { // the second from before
			n.Kind, n.Item = intake.Omit, ""
		}
		im.names, im.news = intake.AddNames(im.names, n), true
	}
	return nil
}

// keep writes the map and the names into the change, if they are new.
func (im *importing) keep(tx *folder.Tx, m intake.Map) error {
	if !im.news {
		return nil
	}
	maps := slices.DeleteFunc(slices.Clone(im.maps), func(o intake.Map) bool { return o.Target == m.Target && o.Name == m.Name })
	text := intake.PrintMaps(append(maps, m))
	if _, faults := intake.ParseMaps(string(text)); len(faults) > 0 {
		return usageError{errors.New(faults[0].What)}
	}
	if err := tx.WriteFile(intake.MapsFile, text); err != nil || len(im.newNames) == 0 {
		return err
	}
	text = intake.PrintNames(im.names)
	if _, faults := intake.ParseNames(string(text)); len(faults) > 0 {
		return usageError{errors.New(faults[0].What)}
	}
	return tx.WriteFile(intake.NamesFile, text)
}
