package page

import (
	"fmt"

	"asleft/internal/archive"
)

const (
	tileGap mp = 8_000
	tilePad mp = 7_000
)

// tiles is a grid of small panels in rows, tagged as a list of links.
func (b *builder) tiles(col column, owner *node, t Tiles) (built, error) {
	if t.PerRow < 1 || t.PerRow > 12 {
		return built{}, fmt.Errorf("section %s: %d tiles to the row, expected 1 to 12", b.key, t.PerRow)
	}
	w := (col.w - tileGap*mp(t.PerRow-1)) / mp(t.PerRow)
	ln := owner.child(archive.RoleList)
	var out []strip
	for len(t.Tiles) > 0 {
		n := min(t.PerRow, len(t.Tiles))
		st, err := b.tileRow(col.x, w, ln, t.Tiles[:n])
		if err != nil {
			return built{}, err
		}
		if len(out) > 0 {
			st.above = tileGap
		}
		out = append(out, st)
		t.Tiles = t.Tiles[n:]
	}
	return built{out, paraGap, panelGap}, nil
}

// tileRow is a row of tiles of equal height.
func (b *builder) tileRow(x, w mp, ln *node, tiles []Tile) (strip, error) {
	texts := make([][]*text, len(tiles))
	links := make([]int, len(tiles))
	var st strip
	for i := range tiles {
		var err error
		if texts[i], links[i], err = b.tile(ln, &tiles[i], w-2*tilePad-toneBar); err != nil {
			return st, err
		}
		h := 2*tilePad + 2_000
		for _, t := range texts[i] {
			h += t.height()
		}
		st.h = max(st.h, h)
	}
	for i := range tiles {
		tx := x + mp(i)*(w+tileGap)
		f := frame{x: tx, w: w, tone: tiles[i].Tone}
		st.ground = append(st.ground, f.draw(0, st.h)...)
		y := tilePad
		for j, t := range texts[i] {
			for k := range t.lines {
				t.put(&st.layer, k, tx+tilePad+toneBar, y)
				y += t.lead
			}
			if j == 0 {
				y += 2_000
			}
		}
		if links[i] != 0 {
			st.areas = append(st.areas, area{x: tx, y: 0, w: w, h: st.h, link: links[i]})
		}
	}
	return st, nil
}

// tile sets the lines of one tile: its head, its status, small lines.
func (b *builder) tile(ln *node, t *Tile, w mp) (texts []*text, number int, err error) {
	at := ln.child(archive.RoleItem).child(archive.RoleItemBody)
	if t.Link != "" {
		at = at.child(archive.RoleLink)
	}
	head := set(running, 11_000)
	head.bold = true
	status := set(running, textSize)
	status.bold = true
	for i, runs := range append([][]Run{t.Head}, t.Lines...) {
		s := set(tabular, tableSize)
		switch i {
		case 0:
			s = head
		case 1:
			s = status
		}
		// The space keeps the lines apart where the structure is read as one text.
		runs = append(runs[:len(runs):len(runs)], Run{Text: " "})
		set, err := b.text(at, runs, s, w)
		if err != nil {
			return nil, 0, err
		}
		texts = append(texts, set)
	}
	if t.Link != "" {
		number = b.link(at, link{anchor: t.Link, text: plainText(t.Head)})
	}
	return texts, number, nil
}
