package main

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"putby/cmd/putby/internal/entry"
	"putby/ledger"
	"putby/ledger/folder"
	"putby/ledger/intake"
)

// mapOptions are the flags that choose a map and mend it.
type mapOptions struct {
	mapName  string
	said     intake.Mend
	newNames []string
}

func (o *mapOptions) add(cmd *cobra.Command, target intake.Target) {
	f := cmd.Flags()
	f.StringVar(&o.mapName, "map", "", "`map`, by its name (the only one for "+target.String()+")")
	f.StringArrayVar(&o.said.Columns, "column", nil, "`COLUMN=HEADER` that fills a column of the ledger; again for each")
	f.StringArrayVar(&o.said.Values, "value", nil, "`COLUMN=VALUE` that no column of the file has; again for each")
	f.StringArrayVar(&o.said.Hows, "how", nil, "`COLUMN=WORDS` that say how its cells are read; again for each")
	f.StringArrayVar(&o.newNames, "name", nil, "`TEXT=ITEM`, what the ledger calls it, or TEXT=ITEM SIZE; again for each")
	oneOf(cmd, &o.said.Dates, "dates", "`order` of dates: %s (found out)", intake.OrderWords())
	oneOf(cmd, &o.said.Decimal, "decimal", "`sign` of decimals: %s (found out)", intake.DecimalWords())
	columns := around("", target.Columns(), "=")
	for _, flag := range []string{"column", "value", "how"} {
		_ = cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(columns, cobra.ShellCompDirectiveNoFileComp|cobra.ShellCompDirectiveNoSpace))
	}
}

// readKept reads the maps and names that the ledger keeps.
func (im *importing) readKept() (err error) {
	im.news, im.added = false, nil
	if im.maps, err = entry.KeptMaps(im.a.ledgerDir()); err == nil {
		im.names, err = entry.KeptNames(im.a.ledgerDir())
	}
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
		return nil, misused("%s has several maps for %v: name one of them with --map: %s", intake.MapsFile, im.target, strings.Join(fit, ", "))
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
		m, missing = intake.Propose(t, im.target, cmp.Or(im.mapName, im.target.String()), rec)
		im.news = true
	}
	mended, err := m.Mend(im.said)
	switch {
	case errors.Is(err, intake.ErrMend):
		return m, err
	case err != nil:
		return m, misused("%v", err)
	}
	if missing != nil && !mended {
		return m, im.about(missing)
	}
	im.news = im.news || mended
	return m, im.addNames(m.Name)
}

// addNames adds the names that flags give, for this map.
func (im *importing) addNames(mapName string) error {
	for _, text := range im.newNames {
		n, err := intake.ParseName(text, mapName)
		if err != nil {
			return misused("%v", err)
		}
		im.added, im.news = append(im.added, n), true
	}
	im.names = intake.AddNames(im.names, im.added...)
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
		return misused("%s", faults[0].What)
	}
	if err := tx.WriteFile(intake.MapsFile, text); err != nil {
		return err
	}
	return entry.KeepNames(tx, im.added)
}
