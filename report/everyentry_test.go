package report

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"fmt"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"asleft/internal/compose"
	"asleft/internal/field"
	"asleft/internal/page"
)

// TestNothingTypedIsMissing follows every cell of the demonstration workbooks that
// something was typed in to the pages: numbers that were read of a cell by their
// paths, printed as typed; all else by its text, or by the words that stand for it,
// on pages of the cell or of the tower; and what is on none of them in the
// appendix, with its address. Each stands in one of two tables, too.
func TestNothingTypedIsMissing(t *testing.T) {
	for _, name := range []string{"demo.xlsx", "metric.xlsx"} {
		t.Run(name, func(t *testing.T) {
			file, err := os.ReadFile("../testdata/" + name)
			if err != nil {
				t.Fatal(err)
			}
			job, err := Open(bytes.NewReader(file), int64(len(file)), name, Options{})
			if err != nil {
				t.Fatal(err)
			}
			in := job.input()
			book, err := compose.Package(in)
			if err != nil {
				t.Fatal(err)
			}
			p := printedBook(book)
			p.paths(t, in)
			p.say = in.Words.Say
			listed, n := 0, 0
			for i := range in.Record.Cells {
				c := &in.Record.Cells[i]
				eachTyped("", reflect.ValueOf(c), func(e typedEntry) { n++; listed += p.find(t, "cell."+strconv.Itoa(c.Number), e) })
			}
			in.Record.Cells = nil
			eachTyped("", reflect.ValueOf(in.Record), func(e typedEntry) { n++; listed += p.find(t, "", e) })
			if n < 1000 || listed == 0 || listed > n/8 {
				t.Errorf("%d entries, %d of them in the appendix", n, listed)
			}
		})
	}
}

// bookText is what stands on pages: values by path, texts by section, and the
// appendix.
type bookText struct {
	ids      map[string]string // path to printed text
	sections map[string]string
	appendix string
	path     map[string]string // address to path in the data file, of numbers
	code     map[string]string // address to what the data file has for a word
	say      func(key string, pairs ...string) string
}

func printedBook(b page.Book) *bookText {
	p := &bookText{ids: map[string]string{}, sections: map[string]string{}}
	for _, s := range b.Sections {
		key := s.Key
		if !strings.HasPrefix(key, "cell.") {
			key = ""
		}
		var text strings.Builder
		eachRun(reflect.ValueOf(s), func(runs []page.Run) {
			text.WriteString("\n")
			for _, r := range runs {
				text.WriteString(r.Text)
				if r.ID != "" {
					p.ids[r.ID] = plainSpaces(r.Text)
				}
			}
		}, func(s string) { text.WriteString("\n" + s) })
		if s.Key == "appendix" {
			p.appendix = plainSpaces(text.String())
			continue
		}
		p.sections[key] += plainSpaces(text.String())
	}
	return p
}

// paths takes the paths and codes from the tables of entries and readings. A cell
// of the workbook stands in one of them, once.
func (p *bookText) paths(t *testing.T, in compose.Input) {
	parts, err := compose.Parts(in)
	if err != nil {
		t.Fatal(err)
	}
	p.path, p.code = map[string]string{}, map[string]string{}
	readings := map[string]bool{}
	for _, part := range parts { // readings come first
		switch part.Name {
		case "readings.csv":
			readingsOf(t, part.Bytes, func(at, path, code string) {
				readings[at] = true // two checks may count with it
				if p.path[at] == "" {
					p.path[at], p.code[at] = path, code
				}
			})
		case "entries.csv":
			entriesOf(t, part.Bytes, func(at, path, code string) {
				if p.path[at] != "" {
					t.Errorf("%s stands as %s and as %s", at, p.path[at], path)
				}
				p.path[at], p.code[at] = path, code
			})
		}
	}
	if len(readings) < 100 || len(p.path)-len(readings) < 500 {
		t.Errorf("%d readings and %d other entries in the tables", len(readings), len(p.path)-len(readings))
	}
}

// inNoTable are entries whose cell no table names: what was said of a round, and
// said anew of each of its blocks; and why something was not read, which stands with
// the cell beside it.
var inNoTable = map[string]string{
	"Cell 2!E31": "HoldDownsFinal", "Cell 4!G31": "HoldDownsFinal",
	"Cell 5!D76": "Reason", "Cell 5!D154": "Reason",
}

// entriesOf visits the lines of the table of entries; what is blank in its first
// three columns is as above, and a value that is blank is what was typed.
func entriesOf(t *testing.T, table []byte, add func(at, path, code string)) {
	var above [3]string
	for _, r := range tableOf(t, table, "file", "sheet", "path", "entry", "sheet_cell", "typed", "value", "unit") {
		for i := range above {
			if r[i] != "" {
				above[i] = r[i]
			}
		}
		add(above[1]+"!"+r[4], above[2]+"."+r[3], cmp.Or(r[6], r[5]))
	}
}

// readingsOf visits the lines of the table of readings that have one.
func readingsOf(t *testing.T, table []byte, add func(at, path, code string)) {
	for _, r := range tableOf(t, table, "cell", "check", "round", "standing", "file", "sheet", "sheet_cell", "index", "degrees", "typed") {
		if r[9] != "" {
			add(r[5]+"!"+r[6], fmt.Sprintf("cells.%s.checks.%s.rounds.%s.readings.%s.read", r[0], r[1], r[2], r[7]), r[9])
		}
	}
}

// tableOf is a table without its head, which has to begin as said.
func tableOf(t *testing.T, table []byte, head ...string) [][]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(table)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(rows[0][:len(head)], head) {
		t.Fatal(rows[0])
	}
	return rows[1:]
}

// numbersOfACell are the paths of what was read of a cell; each is printed under
// its own.
var numbersOfACell = regexp.MustCompile(`^cells\.\d+\.(checks\..*\.(read|return)$|fasteners\..*\.(final|firstPass|required|clicks|count|running)$|startUps\..*\.(volts|amps|vibration-)|pins\..*\.(hole|above|below)$)`)

// ofARun is what was read at a start-up; it is printed under the path of the run.
var ofARun = regexp.MustCompile(`^(cells\.\d+)\.checks\..*\.rounds\.(run\d+)\.readings\.`)

// asTyped tells whether a text is what was typed, with a unit or without that of
// the head of the column.
func asTyped(printed, typed string) bool {
	return printed != "" && (strings.Contains(printed, typed) || strings.HasPrefix(typed, printed))
}

// wordsFor are the phrases that stand for an answer.
var wordsFor = map[string]string{
	"HoldDownsFinal": "cell.holddowns", "ClampsFinal": "cell.clamps", "PulledOut": "how.pulled", "Together": "how.together",
	"Pattern": "fasteners.pattern", "Stripe": "fasteners.stripe", "RotationOK": "startup.rotation", "Uncoupled": "startup.uncoupled",
	"OilLevelOK": "startup.oil", "SwitchTrip": "startup.tripped", "Backstop": "answer", "Reversing": "answer",
}

// find is 1 where the entry stands in the appendix; it fails where it stands
// nowhere.
func (p *bookText) find(t *testing.T, section string, e typedEntry) int {
	at := e.at.Sheet + "!" + e.at.Cell
	typed := plainSpaces(e.text)
	path := p.path[at]
	if path == "" && inNoTable[at] != e.name {
		t.Errorf("%s: %s, typed %q, in no table", at, e.name, typed)
	}
	if strings.Contains(p.appendix, typed+" "+e.at.Cell) {
		return 1
	}
	if m := ofARun.FindStringSubmatch(path); m != nil {
		for id, printed := range p.ids {
			if strings.HasPrefix(id, m[1]+".startUps."+m[2]+".") && asTyped(printed, typed) {
				return 0
			}
		}
	}
	if printed, ok := p.ids[path]; ok || numbersOfACell.MatchString(path) {
		if !asTyped(printed, typed) {
			t.Errorf("%s: typed %q, printed %q under %s", at, typed, printed, path)
		}
		return 0
	}
	var words []string
	switch {
	case e.name == "Accepted":
		before, _, _ := strings.Cut(p.say("cell.accepted", "checks", "\x00"), "\x00")
		words = []string{strings.TrimRight(before, ": ")}
	case e.name == "Done": // the verdict of its line is the answer
		if p.ids[lineVerdict(path)] == "" {
			t.Errorf("%s: %s has no verdict", at, path)
		}
		return 0
	case e.isFlag:
		words = []string{p.say(wordsFor[e.name] + "." + typed)}
	default:
		words = []string{typed, p.say(e.name + "." + p.code[at]), p.say("lubricant." + p.code[at]), p.say("limits.criterion." + p.code[at]),
			p.say("limits.rule." + p.code[at])}
	}
	for _, w := range words {
		if w = plainSpaces(w); holdsWords(p.sections[section], w) || holdsWords(p.sections[""], w) {
			return 0
		}
	}
	t.Errorf("%s: %q (%s) stands on no page", at, typed, path)
	return 0
}

// holdsWords tells whether words stand in a text as words of their own.
func holdsWords(text, words string) bool {
	letter := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	for words != "" {
		before, after, found := strings.Cut(text, words)
		if !found {
			return false
		}
		last, _ := utf8.DecodeLastRuneInString(before)
		next, _ := utf8.DecodeRuneInString(after)
		if !letter(last) && !letter(next) {
			return true
		}
		text = after
	}
	return false
}

// lineVerdict is the path of the verdict of a line of the list before the start.
func lineVerdict(path string) string {
	head, line, _ := strings.Cut(strings.TrimSuffix(path, ".done"), ".preStart.")
	return head + ".checks.prestart.rounds.asleft.items." + line + ".verdict"
}

func plainSpaces(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

// typedEntry is a cell of the workbook.
type typedEntry struct {
	name   string // of the field of the record
	text   string
	at     field.Ref
	isFlag bool
}

// eachTyped visits every entry below a value of the record.
func eachTyped(name string, v reflect.Value, visit func(typedEntry)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			eachTyped(name, v.Elem(), visit)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			eachTyped(name, v.Index(i), visit)
		}
	case reflect.Struct:
		e := typedEntry{name: name}
		var set bool
		switch x := v.Interface().(type) {
		case field.Flag:
			e.text, e.at, set, e.isFlag = x.Text, x.At, x.Set, true
		default:
			if v.FieldByName("Set").IsValid() && v.FieldByName("Text").IsValid() {
				e.text, set = v.FieldByName("Text").String(), v.FieldByName("Set").Bool()
				e.at = v.FieldByName("At").Interface().(field.Ref)
				break
			}
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					eachTyped(v.Type().Field(i).Name, v.Field(i), visit)
				}
			}
		}
		if set {
			visit(e)
		}
	}
}

// eachRun visits every text that blocks print.
func eachRun(v reflect.Value, runs func([]page.Run), text func(string)) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			eachRun(v.Elem(), runs, text)
		}
	case reflect.String:
		text(v.String())
	case reflect.Slice, reflect.Array:
		if v.CanInterface() {
			if r, ok := v.Interface().([]page.Run); ok {
				runs(r)
				return
			}
		}
		for i := range v.Len() {
			eachRun(v.Index(i), runs, text)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && f.Name != "Anchor" && f.Name != "Link" && f.Name != "Bookmark" {
				eachRun(v.Field(i), runs, text)
			}
		}
	}
}
