package page

import (
	"fmt"
	"strings"
)

// Dump prints every box, one to a line, page by page: kind, x, y, width and
// height in points from the upper left corner, then the text in its face, with
// the ID of its value. Furniture is marked with a bar. It is meant to be
// compared and read by people.
func (p *Placed) Dump() string {
	var s strings.Builder
	for i := range p.pages {
		p.dumpPage(&s, i)
	}
	for _, c := range p.Counts {
		fmt.Fprintf(&s, "table %s.%d %q: %d rows\n", c.Section, c.Table, c.Caption, c.Placed)
	}
	return s.String()
}

func (p *Placed) dumpPage(s *strings.Builder, i int) {
	pg := &p.pages[i]
	sec := &p.sections[pg.section]
	ids := sec.ids()
	fmt.Fprintf(s, "page %s, section %s\n", pg.label, sec.key)
	for _, l := range []*layer{&pg.head, &pg.foot, &pg.number} {
		for j := range l.ink {
			dumpInk(s, "| ", &l.ink[j], "")
		}
	}
	for j := range pg.draft {
		dumpInk(s, "| turned ", &pg.draft[j], "")
	}
	for _, r := range pg.ground {
		kind := "fill"
		if r.w <= heavyRule || r.h <= heavyRule {
			kind = "rule"
		}
		if r.dotted {
			kind = "dots"
		}
		fmt.Fprintf(s, "%s %v %v %v %v #%06x\n", kind, r.x, r.y, r.w, r.h, uint32(r.color))
	}
	for j := range pg.ink {
		dumpInk(s, "", &pg.ink[j], ids[pg.ink[j].chunk])
	}
	for _, a := range pg.areas {
		l := sec.links[a.link-1]
		to := l.heading
		if to == 0 {
			to = p.index.anchors[l.anchor]
		}
		fmt.Fprintf(s, "link %v %v %v %v to %q page %s\n", a.x, a.y, a.w, a.h, p.index.entries[to-1].text, p.pages[p.goals[to-1].page].label)
	}
	for _, f := range pg.fields {
		fmt.Fprintf(s, "field %v %v %v %v %s\n", f.x, f.y, f.w, f.h, f.name)
	}
	for _, t := range pg.targets {
		fmt.Fprintf(s, "target %v %q\n", t.y, p.index.entries[t.heading-1].text)
	}
}

// top and height are of the box that letters of a size fill.
func (k *ink) top() mp {
	if k.fig != nil {
		return k.y
	}
	return k.y - k.size*3/4
}

func (k *ink) height() mp { return k.size }

func dumpInk(s *strings.Builder, prefix string, k *ink, id string) {
	kind := "text"
	said := fmt.Sprintf("%s %v %q", k.face.file().name, k.size, k.text)
	switch {
	case k.fig != nil:
		kind, said = "figure", fmt.Sprintf("%q", k.fig.picture.Alt)
	case k.mark != NoMark:
		kind, said = "mark", k.mark.name()
	}
	fmt.Fprintf(s, "%s%s %v %v %v %v %s", prefix, kind, k.x, k.top(), k.w, k.height(), said)
	if k.chunk == 0 && prefix == "" {
		s.WriteString(" unread")
	}
	if id != "" {
		fmt.Fprintf(s, " [%s]", id)
	}
	s.WriteByte('\n')
}

// ids are the values' paths by chunk.
func (sec *placedSection) ids() map[int32]string {
	ids := map[int32]string{}
	var walk func(n *node)
	walk = func(n *node) {
		for _, k := range n.kids {
			switch {
			case k.node != nil:
				walk(k.node)
			case k.chunk != 0 && n.id != "":
				ids[k.chunk] = n.id
			}
		}
	}
	walk(sec.root)
	return ids
}
