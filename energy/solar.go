package energy

import (
	"errors"

	"putby/pricing/exact"
)

// The errors of billing what a household's own roof gave.
var (
	ErrNoExport     = errors.New("some of it came from the roof, and nothing says what that would have earned if sold")
	ErrExportBlocks = errors.New("what is sold has no use of the month by which its price could change")
)

// roof returns what bills power from the roof: under the export tariff, and
// without adding to what the month draws from the grid. What it adds to its meter
// all the same (it has but one way to take a curve apart) is undone behind each span.
func (b *biller) roof() (*biller, error) {
	export := b.t.export
	switch {
	case export == nil:
		return nil, ErrNoExport
	case export.blocks:
		return nil, ErrExportBlocks
	}
	sold := b.m.begin(export)
	sold.asking, sold.solar = true, true
	return &sold, nil
}

// partedCost is cost of a span that the roof gave a part of.
func (b *biller) partedCost(s Span) (exact.Ratio, error) {
	grid, solar := s.parted()
	sum, err := b.cost(grid)
	if err != nil {
		return sum, err
	}
	sold, err := b.roof()
	if err != nil {
		return sum, err
	}
	cost, err := sold.cost(solar)
	return sum.Add(cost), sold.undo(err)
}

// partedPieces is itemized of a span that the roof gave a part of.
func (b *biller) partedPieces(s Span) ([]Piece, error) {
	grid, solar := s.parted()
	list, err := b.itemized(grid)
	if err != nil {
		return list, err
	}
	sold, err := b.roof()
	if err != nil {
		return list, err
	}
	more, err := sold.itemized(solar)
	return append(list, more...), sold.undo(err)
}
