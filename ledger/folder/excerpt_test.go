package folder

import (
	"math/rand/v2"
	"os"
	"reflect"
	"testing"

	"putby/ledger"
	"putby/ledger/ledgertest"
	"putby/pricing/exact"
)

// What an edit concerns is the same records whether they are picked out of the files or
// out of the records that were kept of them, but for the lines at which they begin.
func TestExcerptOfKept(t *testing.T) {
	sample, decade := t.TempDir(), t.TempDir()
	if err := os.CopyFS(sample, os.DirFS("../../testdata/sample")); err != nil {
		t.Fatal(err)
	}
	if err := ledgertest.Write(decade, 1, 1); err != nil {
		t.Fatal(err)
	}
	put(t, sample, "counts.csv", "date,pack,item,quantity\n2025-11-01,,label,3\n2025-11-01,c46-a,,1\n")
	for _, dir := range []string{sample, decade} {
		kept := NewCache(dir)
		rec, faults, err := kept.Read()
		if err != nil || len(faults) > 0 {
			t.Fatal(err, faults)
		}
		random, left := rand.New(rand.NewPCG(5, 1)), 0
		for range 16 {
			c := scopeOf(rec, random)
			files, memory := excerptBy(t, dir, nil, c), excerptBy(t, dir, kept, c)
			if files == nil && memory == nil && len(c.Ends)+len(c.Packed) > 0 {
				continue // which runs take part only all records can tell, or they dried all foods
			}
			if files == nil || memory == nil {
				t.Fatalf("%+v: an excerpt of the files %t, of what was kept %t", c, files != nil, memory != nil)
			}
			if got, want := withoutLines(memory), withoutLines(files); !reflect.DeepEqual(got, want) {
				t.Fatalf("%+v: what was kept gives\n%+v\nthe files\n%+v", c, got, want)
			}
			if memory.Packs.Len() < rec.Packs.Len() && memory.Receipts.Len() < rec.Receipts.Len() && len(memory.Runs) < len(rec.Runs) {
				left++
			}
		}
		if left == 0 {
			t.Error("no excerpt left out packs, receipts and runs")
		}
		if again, _, _ := kept.Read(); again != rec || again.Excerpt != nil || again.Packs.Len() != rec.Packs.Len() {
			t.Error("what was kept was changed")
		}
	}
}

// Where the files are no longer as they were kept, or were never, they are read.
func TestExcerptOfWhatChanged(t *testing.T) {
	dir := household(t)
	kept := NewCache(dir)
	c := Scope{Packs: []string{"P1"}}
	if _, _, err := kept.Read(); err != nil {
		t.Fatal(err)
	}
	b := openedWith(t, dir, kept)
	if rec, _ := b.keptRecords(); rec == nil {
		t.Error("what was kept is not taken")
	}
	draws, err := os.ReadFile(dir + "/draws.csv")
	if err != nil {
		t.Fatal(err)
	}
	put(t, dir, "draws.csv", string(draws)+"\n2025-01-05,P1,1,by hand\n")
	if rec, _ := b.keptRecords(); rec != nil {
		t.Error("records of other files than the Book's are taken")
	}
	before := excerptBy(t, dir, nil, c)
	if after := excerptBy(t, dir, kept, c); !reflect.DeepEqual(withoutLines(after), withoutLines(before)) {
		t.Error("an edit by hand is not in the excerpt")
	}
	put(t, dir, "draws.csv", string(draws)+"\nsoon,P1,1,by hand\n")
	if rec, _ := openedWith(t, dir, kept).keptRecords(); rec != nil {
		t.Error("records that have a fault are taken")
	}
}

// What is kept says of itself that a check found no fault in it, until a file changes;
// then no note in the ledger's folder is needed.
func TestKeptIsSound(t *testing.T) {
	dir := household(t)
	kept := NewCache(dir)
	known := func() bool {
		rec := openedWith(t, dir, kept).Excerpt(func(*ledger.Records) (Scope, bool) { return Scope{Lots: []string{"leek"}}, true })
		return rec != nil
	}
	rec, _, err := kept.Read()
	if err != nil {
		t.Fatal(err)
	}
	if known() {
		t.Error("nobody has looked at it")
	}
	if kept.NoteSound(rec); !known() {
		t.Error("what a check found is not known")
	}
	put(t, dir, "foods.csv", "food,basis,name\nleek,volume,Leeks\n")
	if known() {
		t.Error("it is known of other files than were looked at")
	}
	if kept.NoteSound(rec); known() {
		t.Error("what was found in the files as they were is known of them as they are")
	}
}

// excerptBy is what a scope is of, with what was kept or by the files alone.
func excerptBy(t *testing.T, dir string, kept *Cache, c Scope) *ledger.Records {
	t.Helper()
	b := openedWith(t, dir, kept)
	b.flawless = true
	return b.Excerpt(func(*ledger.Records) (Scope, bool) { return c, true })
}

func openedWith(t *testing.T, dir string, kept *Cache) *Book {
	t.Helper()
	b, err := Opening{Cache: kept}.Look(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	return b
}

// scopeOf is what some edit could be about.
func scopeOf(rec *ledger.Records, random *rand.Rand) (c Scope) {
	some := func() bool { return random.IntN(3) == 0 }
	food := func() string { return rec.Foods[random.IntN(len(rec.Foods))].ID }
	if some() {
		c.Foods = append(c.Foods, food())
	}
	if some() {
		c.Packs = append(c.Packs, rec.Packs.At(random.IntN(rec.Packs.Len())).ID)
	}
	for range random.IntN(3) {
		c.Lots = append(c.Lots, food())
	}
	if some() {
		c.Lots = append(c.Lots, rec.Supplies[random.IntN(len(rec.Supplies))].ID)
	}
	if some() {
		c.Bought = rec.ReceiptDate(random.IntN(rec.Receipts.Len())).String()
	}
	if random.IntN(2) == 0 {
		return c
	}
	run := func() string { return rec.Runs[random.IntN(len(rec.Runs))].ID }
	if some() {
		c.Machines = append(c.Machines, rec.Machines[0].ID)
	}
	if some() {
		c.Runs = append(c.Runs, run())
	}
	if some() {
		c.Packed = append(c.Packed, food())
	}
	if some() {
		c.Ends = append(c.Ends, rec.Runs[len(rec.Runs)-1-random.IntN(3)].ID)
	}
	c.Containers = some()
	return c
}

// withoutLines is all of some records but the lines at which they begin.
func withoutLines(rec *ledger.Records) []any {
	list := spelled(rec)
	rest := reflect.New(reflect.TypeFor[ledger.Records]()).Elem()
	rest.Set(reflect.ValueOf(list[0]))
	for i := range rest.NumField() {
		if f := rest.Field(i); f.Kind() == reflect.Slice {
			f.Set(reflect.ValueOf(lineless(f)))
		} else if f.Kind() == reflect.Map && f.Len() == 0 {
			f.SetZero()
		}
	}
	var names []any // of all that the ledger has, whatever is in the excerpt
	rec.EachRun(func(id string, day exact.Date) { names = append(names, id, day) })
	rec.EachPack(func(id, run string, day exact.Date) { names = append(names, id, run, day) })
	few := *rec.Excerpt
	few.EachRun, few.EachPack = nil, nil // which are no values
	rest.FieldByName("Excerpt").Set(reflect.ValueOf(&few))
	all := []any{rest.Interface(), names}
	for _, records := range list[1:] {
		all = append(all, lineless(reflect.ValueOf(records)))
	}
	return all
}

func lineless(records reflect.Value) any {
	list := reflect.Zero(records.Type())
	for i := range records.Len() {
		r := reflect.New(records.Type().Elem()).Elem()
		r.Set(records.Index(i))
		r.FieldByName("Line").SetZero()
		list = reflect.Append(list, r)
	}
	return list.Interface()
}
