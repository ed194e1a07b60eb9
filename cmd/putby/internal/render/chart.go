package render

import "putby/ledger/report"

func (t *terminal) barCharts(s sheet) []string { return nil }

func (t *terminal) lineChart(s *report.Series) []string { return nil }
