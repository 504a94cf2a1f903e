package workbook

import (
	"maps"
	"strings"
	"testing"
	"unicode/utf8"

	"asleft/internal/field"
)

// tiny is the smallest form.
var tiny = FormOptions{Blades: MinBlades, Positions: MinPositions, Rounds: MinRounds}

// FuzzRead hands over damaged forms: nothing but an error or faults may come
// of them.
func FuzzRead(f *testing.F) {
	form := blank(f, tiny)
	f.Add(form)
	f.Add([]byte("PK\x03\x04"))
	f.Add(form[:200])
	f.Fuzz(func(t *testing.T, b []byte) {
		_, faults, err := Read([]Input{{"x.xlsx", b}}, nil)
		if err != nil && len(faults) > 0 {
			t.Error("both an error and faults")
		}
	})
}

// FuzzSheet puts any XML in the place of a sheet.
func FuzzSheet(f *testing.F) {
	names, original := partsOf(f, blank(f, tiny))
	f.Add(original[firstCell])
	f.Add([]byte(`<worksheet><sheetData><row r="5"><c r="A5" t="inlineStr"><is><t>x</t></is></c></row></sheetData></worksheet>`))
	f.Fuzz(func(t *testing.T, xml []byte) {
		parts := maps.Clone(original)
		parts[firstCell] = xml
		_, _, _ = Read([]Input{{"x.xlsx", packed(t, names, parts)}}, nil)
	})
}

// FuzzCell types any text into a reading, a date, a time and a choice. What is
// taken is shown as typed and was typed; what is not taken is a fault that
// shows no hidden character.
func FuzzCell(f *testing.F) {
	for _, seed := range []string{"9/16", "1-1/4", "12,7 mm", "46281", "2026-03-04", "03/04/26", "2:05 pm", "yes", "\u202e1/2", "½", "1,250", "", " ",
		"0.4 mm/m", "0.12 in/s rms", "1, 2 4"} {
		f.Add(seed)
	}
	form := blank(f, tiny)
	f.Fuzz(func(t *testing.T, text string) {
		if !utf8.ValidString(text) || strings.ContainsFunc(text, func(r rune) bool { return r < ' ' || r == 0xfffe || r == 0xffff }) {
			t.Skip("a file cannot hold it")
		}
		var r reader
		book, err := openBook(form)
		if err != nil {
			t.Fatal(err)
		}
		r.book, r.words = book, english(t)
		sheet := book.sheets[0]
		sheet.grid = &grid{}
		sheet.grid.put(pos{1, 1}, rawCell{kind: rawText, text: text})
		var l field.Length
		var d field.Date
		var c field.Clock
		var w field.Text
		r.read(&l, slot{kind: kindLength}, sheet, pos{1, 1})
		r.read(&d, slot{kind: kindDate}, sheet, pos{1, 1})
		r.read(&c, slot{kind: kindClock}, sheet, pos{1, 1})
		r.read(&w, slot{}, sheet, pos{1, 1})
		var s field.Slope
		var q field.Quantity
		var n numbers
		r.read(&s, slot{kind: kindSlope}, sheet, pos{1, 1})
		r.read(&q, slot{kind: kindQuantity, units: vibration}, sheet, pos{1, 1})
		r.read(&n, slot{kind: kindNumbers}, sheet, pos{1, 1})
		if n.Set && len(n.Value) > maxNumbers {
			t.Errorf("%d numbers were taken", len(n.Value))
		}
		for _, x := range r.faults {
			if strings.IndexFunc(x.Read+x.Detail, hidden) >= 0 {
				t.Errorf("%s shows %q", x.Kind, x.Read+x.Detail)
			}
		}
		if w.Set && strings.IndexFunc(w.Value, hidden) >= 0 {
			t.Errorf("text %q was taken", w.Value)
		}
		if d.Set && (d.Value.Year < firstYear || d.Value.Year > lastYear) {
			t.Errorf("date %s was taken", d.Value)
		}
	})
}
