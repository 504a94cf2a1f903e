package page

import (
	"fmt"

	"asleft/internal/archive"
)

// tileStyle is how close tiles stand, and how their status is set.
type tileStyle struct {
	gap, pad mp
	status   setting
}

// crowded is how many tiles in a row leave little room for each.
const crowded = 5

func tilesStyle(perRow int) tileStyle {
	o := tileStyle{gap: 8_000, pad: 7_000, status: set(running, textSize)}
	if perRow >= crowded {
		o = tileStyle{gap: 5_000, pad: 4_500, status: set(tabular, textSize)}
	}
	o.status.bold = true
	return o
}

// tiles is a grid of small panels in rows, tagged as a list of links.
func (b *builder) tiles(col column, owner *node, t Tiles) (built, error) {
	if t.PerRow < 1 || t.PerRow > 12 {
		return built{}, fmt.Errorf("section %s: %d tiles to the row, expected 1 to 12", b.key, t.PerRow)
	}
	o := tilesStyle(t.PerRow)
	w := (col.w - o.gap*mp(t.PerRow-1)) / mp(t.PerRow)
	ln := owner.child(archive.RoleList)
	var out []strip
	for len(t.Tiles) > 0 {
		n := min(t.PerRow, len(t.Tiles))
		st, err := b.tileRow(col.x, w, ln, t.Tiles[:n], o)
		if err != nil {
			return built{}, err
		}
		if len(out) > 0 {
			st.above = o.gap
		}
		out = append(out, st)
		t.Tiles = t.Tiles[n:]
	}
	return built{out, paraGap, panelGap}, nil
}

// tileRow is a row of tiles of equal height.
func (b *builder) tileRow(x, w mp, ln *node, tiles []Tile, o tileStyle) (strip, error) {
	texts := make([][]*text, len(tiles))
	links := make([]int, len(tiles))
	var st strip
	for i := range tiles {
		var err error
		if texts[i], links[i], err = b.tile(ln, &tiles[i], w-2*o.pad-toneBar, o.status); err != nil {
			return st, err
		}
		h := 2*o.pad + 2_000
		for _, t := range texts[i] {
			h += t.height()
		}
		st.h = max(st.h, h)
	}
	for i := range tiles {
		tx := x + mp(i)*(w+o.gap)
		f := frame{x: tx, w: w, tone: tiles[i].Tone}
		st.ground = append(st.ground, f.draw(0, st.h)...)
		y := o.pad
		for j, t := range texts[i] {
			for k := range t.lines {
				t.put(&st.layer, k, tx+o.pad+toneBar, y)
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
func (b *builder) tile(ln *node, t *Tile, w mp, status setting) (texts []*text, number int, err error) {
	at := ln.child(archive.RoleItem).child(archive.RoleItemBody)
	if t.Link != "" {
		at = at.child(archive.RoleLink)
	}
	head := set(running, 11_000)
	head.bold = true
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
