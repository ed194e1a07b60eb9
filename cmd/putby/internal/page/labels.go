package page

import (
	"io"
	"slices"
	"strings"
	"unicode"

	"github.com/clipperhouse/displaywidth"

	"putby/cmd/putby/internal/render"
	"putby/ledger/question"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// LabelOptions say on what labels are printed.
type LabelOptions struct {
	Paper string // one of Papers
	Size  string // one of Sizes
	Skip  int    // how many places of the first sheet are used already

	Served bool // by a server: sizes are chosen on the page
}

// Papers returns the papers that labels can be printed on.
func Papers() []string { return []string{"a4", "letter"} }

// Sizes returns the sizes of labels: 8, 12 or 24 on a sheet, which is cut into
// equal rectangles without a rest.
func Sizes() []string { return []string{"large", "medium", "small"} }

// A grid is how a sheet is cut, and how long words can be: the name, in columns
// of text; all words of a label that is set large, and what must not be cut, in
// average letters.
type grid struct {
	columns, rows int // labels across and down a sheet
	name          int // columns of text
	easy, most    int // average letters, as wide counts them
}

// That words as long as the last three figures allow have room is TestLabelsFitInBrowser.
var grids = map[string]grid{
	"large":  {2, 4, 27, 110, 240},
	"medium": {2, 6, 30, 115, 155},
	"small":  {3, 8, 22, 85, 140},
}

// WriteLabels writes sheets of labels, one for each row of the labels report.
// Nothing on a label is ever cut but a long name: a caution that does not fit
// is a fault of the option size.
func WriteLabels(w io.Writer, d report.Told[[]report.Label], o LabelOptions) error {
	cut, ok := grids[o.Size]
	switch {
	case !ok:
		return question.OptionFault("size", strings.Join(Sizes(), ", "), "%s is not a size", exact.Quote(o.Size))
	case !slices.Contains(Papers(), o.Paper):
		return question.OptionFault("paper", strings.Join(Papers(), ", "), "%s is not a paper", exact.Quote(o.Paper))
	case o.Skip < 0 || o.Skip >= cut.columns*cut.rows:
		return question.OptionFault("skip", "", "a sheet has %d labels, so %d of them cannot be used already", cut.columns*cut.rows, o.Skip)
	}
	labels := make([]label, o.Skip) // blank ones, for places that are used already
	for i := range d.Figures {
		l := newLabel(&d.Figures[i], d.Show)
		if l.long() > cut.most {
			return question.OptionFault("size", "take a larger size, or shorten the caution in foods.csv",
				"the caution of %s is too long for a %s label, and must not be cut", l.Name, o.Size)
		}
		l.Name = render.Fit(l.Name, cut.name)
		l.Tight = l.long()+wide(l.Name)+wide(l.Pack) > cut.easy
		labels = append(labels, l)
	}
	sheets := slices.Collect(slices.Chunk(labels, cut.columns*cut.rows))
	for _, sheet := range sheets {
		if i := slices.IndexFunc(sheet, func(l label) bool { return !l.Blank() }); i >= 0 {
			sheet[i].Care = sheetCare
		}
	}
	s := labelSheet(o.Paper)
	form := "'none'"
	if o.Served {
		form = "'self'"
	}
	return write(w, "labels.html", labelSheets{Sheet: s, Policy: s.policy(form), Class: o.Paper + " " + o.Size, Sheets: sheets, LabelOptions: o})
}

// sheetCare stands on the first label of each sheet, as long as the margin of a
// small one is wide: a printer's own margins take what stands between labels.
const sheetCare = "Putby does not say that food is safe: follow your food-safety authority."

// labelSheet are the looks of labels; they tell the printer the paper.
func labelSheet(paper string) sheet {
	return newSheet(faces[false](), looksOf("base.css", "labels.css")+"@page { size: "+paper+"; margin: 0; }\n")
}

// LabelPolicy is the content policy that a server sends with labels.
func LabelPolicy(paper string) string { return labelSheet(paper).policy("'self'") + noFrame }

// What the template reads.
type (
	labelSheets struct {
		LabelOptions
		Sheet  sheet
		Policy string
		Class  string
		Sheets [][]label
	}
	label struct {
		Name, Pack, Number    string
		Packed, BestBy, Place string
		Makes, Dry            string
		Water, Volume, Ratio  string // empty where how much is not known
		Absorber, Caution     string
		Care                  string // what the sheet says once
		Tight                 bool   // set in smaller letters
	}
)

// Choices are the sizes and papers to choose from, the chosen one first.
func (o LabelOptions) Choices() [][]string {
	first := func(list []string, chosen string) []string {
		return append([]string{chosen}, slices.DeleteFunc(list, func(s string) bool { return s == chosen })...)
	}
	return [][]string{first(Sizes(), o.Size), first(Papers(), o.Paper)}
}

// Blank reports whether a label is a place that is used already.
func (l label) Blank() bool { return l.Pack == "" }

// long is how much text must be on the label whatever happens.
func (l label) long() int { return wide(l.Absorber) + wide(l.Caution) }

// wide measures text in average letters. Widths are those of the typeface, in
// tenths of its size; a letter that it does not have is taken to be wide.
func wide(s string) int {
	tenths := 0
	for _, r := range s {
		switch {
		case strings.ContainsRune(" fijlrt.,:;'!|()[]-", r):
			tenths += 3
		case strings.ContainsRune("mwMW@%&", r):
			tenths += 9
		case r > unicode.MaxASCII:
			tenths += 4 + 4*max(displaywidth.Rune(r), 1)
		case unicode.IsUpper(r):
			tenths += 7
		default:
			tenths += 5
		}
	}
	return tenths * 2 / 9 // an average letter is 4.5 tenths wide
}

// newLabel writes a label.
func newLabel(r *report.Label, show report.Show) label {
	l := label{
		Name: render.Clean(r.Food.Title()), Pack: render.Clean(r.Pack), Number: show.Number(exact.Int(int64(r.Number))) + " of " + show.Number(exact.Int(int64(r.Of))),
		Packed: show.Date(r.Packed), Place: render.Clean(r.Place), Makes: kitchenAmount(r.Makes, show), Dry: kitchenAmount(r.Dry, show),
		Water: kitchenAmount(r.Water, show), Volume: kitchenAmount(r.WaterVolume, show), Absorber: absorberInside(r.Absorbers, show), Caution: render.Clean(r.Caution),
	}
	if r.BestBy != exact.NoDate {
		l.BestBy = show.Date(r.BestBy)
	}
	if !r.PerDry.IsNull() {
		l.Ratio = r.PerDry.Shown(exact.Currency{}, show)
	}
	return l
}

// absorberInside says that there is something in the container that is no food.
func absorberInside(n exact.Number, show report.Show) string {
	switch {
	case n.Sign() <= 0:
		return ""
	case exact.Int(1).Less(n):
		return show.Number(n) + " absorbers inside: do not eat."
	}
	return "Absorber inside: do not eat."
}

// kitchenAmount writes an amount as kitchen scales and jugs show it: below a
// kilogram or a litre in whole grams or millilitres. Other units than metric
// ones are shown as tables show them.
func kitchenAmount(v report.Value, show report.Show) string {
	small := map[exact.Unit]exact.Unit{exact.Kg: exact.G, exact.L: exact.ML}[show.In(v.Unit())]
	switch {
	case v.IsNull():
		return ""
	case small == exact.NoUnit || !v.Number().Less(exact.Int(1)):
		return v.ShownWithUnit(exact.Currency{}, show)
	}
	return show.Number(v.Number().Over(small.Factor()).Round(0, exact.HalfAway)) + " " + small.String()
}
