package render

// Clean returns s on one line and without what would act on a terminal or not
// be seen in a page: control characters, bidirectional overrides and other
// invisible ones.
func Clean(s string) string { return clean(s) }

// Fit returns s clean and in at most most columns of text, cut with an
// ellipsis between characters as people see them.
func Fit(s string, most int) string { return penOf(Options{}).fit(clean(s), most) }
