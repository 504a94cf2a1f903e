package report

import (
	"errors"
	"fmt"
	"io"

	"asleft/internal/compose"
)

// ErrNothingToMove: no cell that was asked for needs a move, nor anything to be
// read or filled in before one can be said.
var ErrNothingToMove = errors.New("no cell needs a move")

// WriteCard writes the crew cards: a page for each cell that needs a move, or,
// where cells are named, for those of them. Nothing is written where none does
// ([ErrNothingToMove]), or where the workbook holds what cannot be printed
// ([ErrRefused]).
func (j *Job) WriteCard(w io.Writer, cells ...int) error {
	b, err := compose.WriteCard(j.input(), cells...)
	switch {
	case errors.Is(err, compose.ErrNoCard):
		return ErrNothingToMove
	case err != nil:
		return fmt.Errorf("%w: %w", ErrRefused, err)
	}
	_, err = w.Write(b)
	return err
}

// Moves are what to move in words, cell by cell, with what must be said along.
func (j *Job) Moves() ([]Note, error) {
	lines, err := compose.MoveLines(j.input())
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrRefused, err)
	}
	var out []Note
	for _, l := range lines {
		out = append(out, Note{Cell: l.Cell, Key: l.Key, Text: l.Text})
	}
	return out, nil
}
