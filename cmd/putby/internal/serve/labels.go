package serve

import (
	"bytes"
	"net/http"
	"strings"

	"putby/cmd/putby/internal/page"
	"putby/ledger/report"
)

// showLabels shows the labels of a pack, or of several between commas, to print from a phone: by default on
// A4, with ?paper=letter on that.
func (s *server) showLabels(w http.ResponseWriter, r *http.Request) {
	g, err := s.ledger("")
	var labels report.Doc
	if err == nil {
		labels, err = report.Labels(g, report.LabelQuery{Packs: strings.Split(r.PathValue("pack"), ",")})
	}
	paper := "a4"
	if r.URL.Query().Get("paper") == "letter" {
		paper = "letter"
	}
	var b bytes.Buffer
	if err == nil {
		err = page.WriteLabels(&b, labels, page.LabelOptions{Paper: paper, Size: "large"})
	}
	if err != nil {
		s.show(w, http.StatusUnprocessableEntity, page.Form{Title: "There are no labels for that", Trouble: troubles(err), Links: s.links(nil)})
		return
	}
	w.Header().Set("Content-Security-Policy", page.LabelPolicy(paper))
	s.send(w, http.StatusOK, b.Bytes())
}
