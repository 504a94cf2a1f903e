package page

import (
	"fmt"

	"asleft/internal/archive"
)

// entry is a heading of the book as found before anything is placed.
type entry struct {
	level    int
	bookmark string
	anchor   string
	section  int
	text     string
}

// index is all headings in order, and what can be linked to. Headings are
// counted from 1 in the order of the book.
type index struct {
	entries []entry
	first   []int // per section: headings before it
	anchors map[string]int
	ids     map[string]bool
	fields  map[string]bool
}

// newIndex walks the book and refuses what cannot be told apart later: levels
// that skip one (ISO 14289-1, 7.4.2), anchors, values and fields used twice.
func newIndex(book *Book) (*index, error) {
	x := &index{anchors: map[string]int{}, ids: map[string]bool{}, fields: map[string]bool{}}
	for i := range book.Sections {
		s := &book.Sections[i]
		x.first = append(x.first, len(x.entries))
		if err := x.blocks(i, s.Blocks); err != nil {
			return nil, fmt.Errorf("section %s: %w", s.Key, err)
		}
	}
	x.ids = nil // of a great book it is large, and nobody asks again
	return x, nil
}

func (x *index) blocks(section int, blocks []Block) error {
	for _, bl := range blocks {
		if err := x.block(section, bl); err != nil {
			return err
		}
	}
	return nil
}

func (x *index) block(section int, bl Block) error {
	switch v := bl.(type) {
	case Heading:
		if err := x.heading(section, v); err != nil {
			return err
		}
		return x.runs(v.Runs)
	case Paragraph:
		return x.runs(v.Runs)
	case List:
		return x.runs(v.Items...)
	case Table:
		return x.table(&v)
	case Picture:
		return x.runs(v.Caption)
	case Columns:
		for _, inner := range v.Blocks {
			if err := x.blocks(section, inner); err != nil {
				return err
			}
		}
	case Panel:
		return x.blocks(section, v.Blocks)
	case Tiles:
		for i := range v.Tiles {
			if err := x.runs(append([][]Run{v.Tiles[i].Head}, v.Tiles[i].Lines...)...); err != nil {
				return err
			}
		}
	case Signature:
		if v.Name == "" || x.fields[v.Name] {
			return fmt.Errorf("signature field %q: name is empty or used twice", v.Name)
		}
		x.fields[v.Name] = true
	}
	return nil
}

func (x *index) heading(section int, h Heading) error {
	before := 0
	if n := len(x.entries); n > 0 {
		before = x.entries[n-1].level
	}
	if h.Level < 1 || h.Level > 4 || h.Level > before+1 {
		return fmt.Errorf("heading %q of level %d after one of level %d", plainText(h.Runs), h.Level, before)
	}
	x.entries = append(x.entries, entry{h.Level, h.Bookmark, h.Anchor, section, plainText(h.Runs)})
	if h.Anchor == "" {
		return nil
	}
	if x.anchors[h.Anchor] != 0 {
		return fmt.Errorf("anchor %q used twice", h.Anchor)
	}
	x.anchors[h.Anchor] = len(x.entries)
	return nil
}

func (x *index) table(t *Table) error {
	if err := x.runs(t.Caption); err != nil {
		return err
	}
	for _, cells := range t.Head {
		for i := range cells {
			if err := x.runs(cells[i].Runs); err != nil {
				return err
			}
		}
	}
	for i := range t.Rows {
		for j := range t.Rows[i].Cells {
			if err := x.runs(t.Rows[i].Cells[j].Runs); err != nil {
				return err
			}
		}
	}
	return nil
}

func (x *index) runs(lists ...[]Run) error {
	for _, runs := range lists {
		for i := range runs {
			if runs[i].ID == "" {
				continue
			}
			ids, _ := archive.Several(runs[i].ID, "")
			for _, id := range ids {
				if x.ids[id] {
					return fmt.Errorf("value %q printed under the same ID twice", id)
				}
				x.ids[id] = true
			}
		}
	}
	return nil
}
