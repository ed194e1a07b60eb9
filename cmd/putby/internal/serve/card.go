package serve

import (
	"bytes"
	"net/http"
	"time"

	"putby/cmd/putby/internal/page"
	"putby/ledger/figures"
	"putby/ledger/report"
	"putby/pricing/exact"
)

// cardOn is what to pay in the shop as it stands on a day, or now, worked out once.
func (v *state) cardOn(day exact.Date, now time.Time) (report.Told[report.ShopCard], error) {
	v.mu.Lock()
	if v.card == nil || v.card.day != day || !v.card.now.Equal(now) {
		v.card = &cardOn{day: day, now: now}
	}
	c := v.card
	v.mu.Unlock()
	c.once.Do(func() {
		c.err = errBroken
		g, err := v.join(day, day)
		if err != nil {
			c.err = err
			return
		}
		c.doc, c.err = report.Card(g, figures.CardQuery{AsOf: day, Now: now}, fieldName)
		c.doc.Notes = append(report.LeftOut(g), c.doc.Notes...)
	})
	return c.doc, c.err
}

// showCard shows the card for the shop. ?keep gives it as a file that needs no
// server: a phone away from home has no other way, since browsers let only pages
// that are encrypted, and run scripts, keep themselves.
func (s *server) showCard(w http.ResponseWriter, r *http.Request) {
	now, err := s.kept.state()
	var d report.Told[report.ShopCard]
	day := exact.NoDate
	if err == nil {
		at := s.momentOf(now)
		day = at.Today
		d, err = now.cardOn(day, at.Begins("", &now.rec.Settings))
	}
	keep := r.URL.Query().Has("keep")
	var b bytes.Buffer
	if err == nil {
		err = page.WriteCard(&b, d, !keep)
	}
	if err != nil {
		s.show(w, http.StatusUnprocessableEntity, page.Form{Title: "There is no card", Trouble: troubles(err), Links: s.links(nil)})
		return
	}
	if keep {
		w.Header().Set("Content-Disposition", `attachment; filename="putby-card-`+day.String()+`.html"`)
	}
	w.Header().Set("Content-Security-Policy", page.CardPolicy())
	s.send(w, http.StatusOK, b.Bytes())
}
