package serve

import (
	"bytes"
	"cmp"
	"net/http"
	"strconv"
	"strings"

	"putby/cmd/putby/internal/page"
	"putby/ledger/figures"
	"putby/ledger/question"
	"putby/ledger/report"
)

// showLabels shows the labels of a pack, or of several between commas, to print
// from a phone. Size and paper are chosen on the page.
func (s *server) showLabels(w http.ResponseWriter, r *http.Request) {
	g, err := s.ledger("")
	var labels report.Told[[]report.Label]
	if err == nil {
		labels, err = question.Asked(report.Labels)(g, figures.LabelQuery{Packs: strings.Split(r.PathValue("pack"), ",")})
	}
	o := page.LabelOptions{Served: true, Size: cmp.Or(r.URL.Query().Get("size"), page.Sizes()[0]), Paper: cmp.Or(r.URL.Query().Get("paper"), page.Papers()[0])}
	if skip := r.URL.Query().Get("skip"); skip != "" && err == nil {
		if o.Skip, err = strconv.Atoi(skip); err != nil {
			err = question.OptionFault("used already", "write how many places of the first sheet are used, such as 3", "it is no number")
		}
	}
	var b bytes.Buffer
	if err == nil {
		err = page.WriteLabels(&b, labels, o)
	}
	if err != nil {
		s.show(w, http.StatusUnprocessableEntity, page.Form{Title: "There are no labels for that", Trouble: troubles(err),
			Links: append([]page.Link{{To: r.URL.Path, Name: "Large labels"}}, s.links(nil)...)})
		return
	}
	w.Header().Set("Content-Security-Policy", page.LabelPolicy(o.Paper))
	s.send(w, http.StatusOK, b.Bytes())
}
