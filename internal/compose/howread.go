package compose

import (
	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/page"
)

// howRead says how the readings of a check were taken, as far as it was typed
// once for the whole block: each part is a piece of a line.
func (b *book) howRead(c towerCell, check string) [][]page.Run {
	r := c.read
	h := how{b: b, cell: c.judged.Number, check: check}
	switch check {
	case assess.Tilt:
		h.word(b.code("how", r.Tilt.Sense))
		h.count("how.turned", "blade", r.Tilt.Blade)
		h.length("how.radius", "radius", r.Tilt.Radius)
	case assess.Track:
		h.text("how.place", r.Track.Place)
	case assess.TipRadius:
		h.count("how.position", "position", r.TipRadius.Position)
		h.word(b.yesNo("how.pulled", r.TipRadius.PulledOut))
	case assess.Clearance:
		h.word(b.yesNo("how.pulled", r.Clearance.PulledOut))
	case assess.Pitch:
		h.count("how.position", "position", r.Pitch.Position)
		h.length("how.radius", "radius", r.Pitch.Radius)
		h.text("how.surface", r.Pitch.Surface)
	case assess.CouplingGear:
		h.coupling(&r.Drive.CouplingGear)
	case assess.CouplingMotor:
		h.coupling(&r.Drive.CouplingMotor)
	}
	return h.parts
}

// how gathers the parts of the line; what was left blank adds none.
type how struct {
	b     *book
	cell  int
	check string
	parts [][]page.Run
}

// coupling says where the reader stood and how the shafts were turned.
func (h *how) coupling(k *field.Coupling) {
	h.word(h.b.code("how.stood", k.Stood))
	h.word(h.b.yesNo("how.together", k.Together))
	if k.Sweep.Value {
		h.word(h.b.say("how.sweep"))
	}
}

func (h *how) word(text string) {
	if text != "" {
		h.parts = append(h.parts, muted(text))
	}
}

func (h *how) text(key string, t field.Text) {
	if text := h.b.text(t); text != "" {
		h.parts = append(h.parts, h.b.placed(key, page.Run{Text: text, Face: page.Muted}))
	}
}

func (h *how) count(key, entry string, n field.Count) {
	if n.Set {
		h.value(key, entry, h.b.counted(n))
	}
}

func (h *how) length(key, entry string, l field.Length) {
	if l.Set {
		h.value(key, entry, h.b.asTyped(l))
	}
}

// value adds a part with a value of the data file in it.
func (h *how) value(key, entry, text string) {
	run := h.b.value(data.BlockID(h.cell, h.check, entry), text)
	run.Face = page.Muted
	h.parts = append(h.parts, h.b.placed(key, run))
}
