package page

import (
	"fmt"

	"asleft/internal/archive"
)

// picture is a figure in the middle of its column with its caption below. One
// too wide for the column is scaled down.
func (b *builder) picture(col column, owner *node, p Picture) (built, error) {
	if p.Figure == nil {
		return built{}, fmt.Errorf("section %s: picture %q without a figure", b.key, p.Alt)
	}
	if p.Alt == "" {
		return built{}, fmt.Errorf("section %s: figure without alternative text", b.key)
	}
	fw, fh := p.Figure.Size()
	w, err := length("width of figure", fw, 1, maxPoints)
	if err != nil {
		return built{}, fmt.Errorf("section %s: %w", b.key, err)
	}
	h, err := length("height of figure", fh, 1, maxPoints)
	if err != nil {
		return built{}, fmt.Errorf("section %s: %w", b.key, err)
	}
	f := &figure{picture: p, w: w, h: h, permil: 1000, section: b.key}
	if w > col.w {
		f.permil = int64(col.w) * 1000 / int64(w)
		f.w, f.h = w.share(f.permil, 1000), h.share(f.permil, 1000)
	}
	return b.figure(col, owner, f)
}

// figure sets a figure in the middle of its column, its caption below.
func (b *builder) figure(col column, owner *node, f *figure) (built, error) {
	f.node = owner.child(archive.RoleFigure)
	f.node.detail = &archive.Detail{Alt: f.picture.Alt}
	st := strip{h: f.h}
	st.ink = []ink{{x: col.x + (col.w-f.w)/2, w: f.w, size: f.h, fig: f, chunk: b.chunk(f.node)}}
	out := []strip{st}
	if len(f.picture.Caption) > 0 {
		caption, err := b.caption(col, f.node, f.picture.Caption)
		if err != nil {
			return built{}, err
		}
		bind(out, bondLead)
		caption[0].above = 3_000
		for i := range caption[:len(caption)-1] {
			bind(caption[i:i+1], bondLead)
		}
		out = append(out, caption...)
	}
	if f.picture.Keep {
		bind(out, bondPair)
	}
	return built{out, paraGap, panelGap}, nil
}

// caption is the line of a figure or a table that says its finding.
func (b *builder) caption(col column, owner *node, runs []Run) ([]strip, error) {
	t, err := b.text(owner.child(archive.RoleCaption), runs, set(tabular, tableSize+500), col.w)
	if err != nil {
		return nil, err
	}
	if len(t.lines) == 0 {
		return nil, fmt.Errorf("section %s: caption without text", b.key)
	}
	return t.strips(col, Left), nil
}
