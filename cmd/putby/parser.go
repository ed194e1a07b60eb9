package main

import (
	"fmt"
	"time"

	reports "putby/ledger/report"
	"putby/pricing/exact"
)

// parser reads the values of flags and keeps the first error, so that reading
// stays a list. An empty text is a value that was not given.
type parser struct{ err error }

func (p *parser) fail(option, hint, format string, args ...any) {
	if p.err == nil {
		p.err = &reports.QueryError{Option: option, Why: fmt.Sprintf(format, args...), Hint: hint}
	}
}

func (p *parser) check(option string, err error, hint string) {
	if err != nil {
		p.fail(option, hint, "%v", err)
	}
}

func (p *parser) date(option, text string) exact.Date {
	if text == "" {
		return exact.NoDate
	}
	d, err := exact.ParseDate(text)
	p.check(option, err, "write it as 2025-02-28")
	return d
}

// number reads a number that is not negative.
func (p *parser) number(option, text string) exact.Opt[exact.Number] {
	if text == "" {
		return exact.Opt[exact.Number]{}
	}
	n, err := exact.ParseNumber(text)
	p.check(option, err, "write digits with a point, such as 12.50")
	if n.Sign() < 0 {
		p.fail(option, "", "%s is below 0", text)
	}
	return exact.Some(n)
}

func (p *parser) money(option, text string) exact.Opt[exact.Money] {
	n, ok := p.number(option, text).Get()
	if !ok {
		return exact.Opt[exact.Money]{}
	}
	return exact.Some(exact.MoneyOf(n))
}

// quantity reads an amount with its unit, or a bare number of pieces.
func (p *parser) quantity(option, text string) exact.Quantity {
	if text == "" {
		return exact.Quantity{}
	}
	if n, err := exact.ParseNumber(text); err == nil {
		return p.notNegative(option, text, exact.Ea.Of(n))
	}
	q, err := exact.ParseQuantity(text)
	p.check(option, err, "write a number and a unit, such as 1.5 L, 500 g or 6 ea")
	return p.notNegative(option, text, q)
}

func (p *parser) notNegative(option, text string, q exact.Quantity) exact.Quantity {
	if q.Sign() < 0 {
		p.fail(option, "", "%s is below 0", text)
	}
	return q
}

func (p *parser) duration(option, text string) exact.Opt[time.Duration] {
	if text == "" {
		return exact.Opt[time.Duration]{}
	}
	d, err := exact.ParseDuration(text)
	p.check(option, err, "write it as 30h, 8h24m or 8:24")
	return exact.Some(d)
}

// count reads a whole number of a flag whose -1 means not given.
func (p *parser) count(option string, n int) exact.Opt[int] {
	if n == -1 {
		return exact.Opt[int]{}
	}
	if n < 0 {
		p.fail(option, "", "%d is below 0", n)
	}
	return exact.Some(n)
}
