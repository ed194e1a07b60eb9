package intake

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"putby/ledger"
)

// Rows that are packed come back as they were, however many and long they are,
// once more after that, and while they are let go.
func TestFileRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := FileRows{File: "receipts.csv", Columns: []string{"a", "b", "c"}}
		long := strings.Repeat("x", rapid.SampledFrom([]int{0, 1, 127, 128, partSize / 4, 2 * partSize}).Draw(t, "long"))
		var want []NewRow
		for i := range rapid.IntRange(0, 40).Draw(t, "n") {
			row := NewRow{Line: rapid.IntRange(0, 1<<30).Draw(t, "line"), Cells: []string{strconv.Itoa(i), "", long}}
			want = append(want, row)
			f.Add(row)
		}
		same := func(what string, got []NewRow) {
			if !slices.EqualFunc(want, got, func(a, b NewRow) bool { return a.Line == b.Line && slices.Equal(a.Cells, b.Cells) }) {
				t.Fatalf("%s: %d rows of %d, or others", what, len(got), len(want))
			}
		}
		gather := func(rows func(func(NewRow) bool)) (list []NewRow) {
			for r := range rows {
				list = append(list, NewRow{r.Line, slices.Clone(r.Cells)})
			}
			return list
		}
		same("gone through", gather(f.Rows()))
		same("once more", gather(f.Rows()))
		same("drained", gather(f.Drain()))
		if got := gather(f.Rows()); len(got) > 0 || f.Len() != len(want) {
			t.Fatalf("%d rows are left, of %d", len(got), f.Len())
		}
	})
}

// Plans are the same when they add the same rows, also once those are let go.
func TestSamePlans(t *testing.T) {
	plan := func(cells ...string) *Plan {
		f := FileRows{File: "receipts.csv", Columns: []string{"a"}}
		for _, c := range cells {
			f.Add(NewRow{1, []string{c}})
		}
		return &Plan{Add: []FileRows{f}}
	}
	a, b := plan("x", "y"), plan("x", "y")
	for range a.Add[0].Drain() {
	}
	if !a.Same(b) || !b.Same(a) {
		t.Error("they add the same")
	}
	for _, other := range []*Plan{plan("x"), plan("x", "z"), plan("xy"), {}, {Add: b.Add, Bad: ledger.Faults{{}}}} {
		if a.Same(other) {
			t.Errorf("%+v adds something else", other)
		}
	}
}
