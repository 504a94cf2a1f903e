package page

import (
	"fmt"

	"asleft/internal/archive"
	"asleft/internal/plot"
)

const (
	signLine  mp = 21_000 // of a line to write on by hand
	signField mp = 46_000 // least height of the form field
	labelCol  mp = 74_000
)

// signature is a block to be signed: lines to fill in by hand at the left, the
// form field at the right. It stays whole.
func (b *builder) signature(col column, owner *node, sg Signature) (built, error) {
	if sg.Tooltip == "" {
		return built{}, fmt.Errorf("section %s: signature field %s without a tooltip", b.key, sg.Name)
	}
	f := &frame{x: col.x, w: col.w}
	head := set(running, 11_000)
	head.bold = true
	return b.framed(col, f, panelPad, false, func(in column) ([]strip, error) {
		t, err := b.text(owner.child(archive.RoleP), []Run{{Text: sg.Title}}, head, in.w)
		if err != nil {
			return nil, err
		}
		body, err := b.signatureBody(in, owner, sg)
		if err != nil {
			return nil, err
		}
		out := t.strips(in, Left)
		for i := range out {
			bind(out[i:i+1], bondLead)
		}
		body.above = 3_000
		return append(out, body), nil
	})
}

// signatureBody is the lines and the field beside them.
func (b *builder) signatureBody(in column, owner *node, sg Signature) (strip, error) {
	w := in.w * 58 / 100
	var st strip
	for _, l := range sg.Lines {
		h, err := b.signatureLine(&st, column{in.x, w}, owner, l, st.h)
		if err != nil {
			return st, err
		}
		st.h += h
	}
	fx := in.x + w + gutter
	box := fieldArea{x: fx, y: 2_000, w: in.x + in.w - fx, name: sg.Name, tooltip: sg.Tooltip}
	if sg.Word != "" {
		t, err := b.text(owner.child(archive.RoleP), []Run{{Text: sg.Word, Face: Muted}}, set(tabular, smallSize), box.w)
		if err != nil {
			return st, err
		}
		for i := range t.lines {
			t.put(&st.layer, i, box.x, mp(i)*t.lead)
		}
		box.y = t.height() + 1_500
	}
	st.h = max(st.h, box.y+signField)
	box.h = st.h - box.y - 2_500
	box.node = owner.child(archive.RoleForm)
	box.node.kids = append(box.node.kids, kid{})
	st.fields = append(st.fields, box)
	st.ground = append(st.ground, border(box.x, box.y, box.w, box.h, hairline, plot.Muted)...)
	return st, nil
}

// signatureLine is a label with its text, or with a rule to write on.
func (b *builder) signatureLine(st *strip, col column, owner *node, l SignatureLine, y mp) (mp, error) {
	pn := owner.child(archive.RoleP)
	label, err := b.text(pn, []Run{{Text: l.Label + " ", Face: Muted}}, set(tabular, tableSize), labelCol)
	if err != nil {
		return 0, err
	}
	value := &text{lead: label.lead, size: label.size}
	if l.Text != "" {
		if value, err = b.text(pn, []Run{{Text: l.Text}}, set(tabular, textSize), col.w-labelCol); err != nil {
			return 0, err
		}
	}
	h := max(signLine, label.height()+4_000, value.height()+4_000)
	// Both stand on the rule: the last lines at its height.
	for _, t := range []struct {
		*text
		x mp
	}{{label, col.x}, {value, col.x + labelCol}} {
		top := y + h - 2_500 - t.height()
		for i := range t.lines {
			t.put(&st.layer, i, t.x, top+mp(i)*t.lead)
		}
	}
	if l.Text == "" {
		st.ground = append(st.ground, rect{x: col.x + labelCol, y: y + h - 2_500, w: col.w - labelCol, h: hairline, color: plot.Muted})
	}
	return h, nil
}
