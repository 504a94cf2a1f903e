//go:build outside

package compose

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"asleft/internal/correct"
	"asleft/internal/page"
)

// amountIn finds amounts with their units, and angles.
var amountIn = regexp.MustCompile(`[0-9][0-9./]* (in|mm)\b|[0-9.]+°`)

// decimalIn finds the decimal that stands beside a fraction.
var decimalIn = regexp.MustCompile(`\([0-9.]+ in, `)

// wayIn finds the words that say which way.
var wayIn = regexp.MustCompile(`add|take out|leave as it is|toward the motor|away from the motor|toward the river side|away from the river side|` +
	`toward the wall|away from the wall|higher|lower|more pitch|less pitch|bring the wall in|push the wall out|made of|on top`)

// onTable are the words that a table of a card has for those of a line.
var onTable = map[string]string{"toward the wall": "toward wall", "away from the wall": "toward hub", "higher": "raise tip", "lower": "lower tip"}

// TestCardsByPoppler: what poppler reads from the finished cards is what the
// terminal says of the moves: every title, amount and direction.
func TestCardsByPoppler(t *testing.T) {
	moves := 0
	for _, c := range cardCases {
		r := cardTower(t)
		c.bend(&maker{sheet: "Cell 1"}, &r)
		in := cardInput(t, r)
		lines, err := MoveLines(in)
		if err != nil {
			t.Fatal(err)
		}
		for _, paper := range []page.Paper{page.Letter, page.A4} {
			in.Options.Paper = paper
			text := readCard(t, in)
			for _, l := range lines {
				if strings.HasPrefix(l.Key, "move.") {
					moves++
					onCardText(t, c.name+" "+paper.Name, text, l.Text)
				}
			}
			if remark := r.Cells[0].Remarks; remark.Set && !strings.Contains(text, remark.Value[:30]) {
				t.Errorf("%s: no remark", c.name)
			}
		}
	}
	if moves < 2*len(correct.Kinds()) {
		t.Errorf("only %d moves were looked at", moves)
	}
}

// readCard is what poppler reads from a card, in one line.
func readCard(t *testing.T, in Input) string {
	t.Helper()
	card, err := WriteCard(in)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "card.pdf")
	if err := os.WriteFile(file, card, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", file, "-").CombinedOutput()
	if err != nil {
		t.Fatalf("pdftotext: %v\n%s", err, out)
	}
	return oneLine(string(out))
}

func oneLine(s string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(s, "\u00a0", " ")), " ")
}

func onCardText(t *testing.T, name, card, line string) {
	t.Helper()
	line = oneLine(line)
	title, steps, _ := strings.Cut(strings.TrimSuffix(line, "."), ": ")
	if !strings.Contains(card, title) {
		t.Errorf("%s: no %q", name, title)
	}
	// Tables of blades have no room for the decimal beside the fraction.
	short := decimalIn.ReplaceAllString(steps, "(")
	for _, part := range append(amountIn.FindAllString(short, -1), wayIn.FindAllString(steps, -1)...) {
		if other := onTable[part]; !strings.Contains(card, part) && (other == "" || !strings.Contains(card, other)) {
			t.Errorf("%s: no %q of %q", name, part, line)
		}
	}
}
