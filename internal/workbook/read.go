package workbook

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"sort"
	"strconv"
	"strings"

	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/templates"
)

// Input is a workbook as it was handed over.
type Input struct {
	Name  string // base name of the file
	Bytes []byte
}

// Read reads filled forms of one tower into a record. What stands in a cell but
// cannot be read as intended comes back as faults, all of them, in the order of
// the sheets; such a record is not to be reported. A file that is no filled
// form at all comes back as a [FileError].
//
// Several workbooks are united: what only one of them says is taken, and what
// two say differently is a fault of kind [Clash]. Plant, tower, limits and
// registers may be blank in some of them.
//
// The words are those of the language in which faults will be told; labels are
// compared in the language that the form was made in.
func Read(files []Input, w *templates.Words) (field.Record, []field.Fault, error) {
	switch {
	case len(files) == 0:
		return field.Record{}, nil, &FileError{Kind: ErrNotForm}
	case len(files) > MaxFiles:
		return field.Record{}, nil, &FileError{Name: shown(files[MaxFiles].Name), Kind: ErrSeveral, Detail: itoa(len(files))}
	}
	var all together
	for i, in := range files {
		r := &reader{words: w, number: i, aside: aside{bolted: map[int]bool{}}}
		if err := r.file(in); err != nil {
			var refused *FileError
			if errors.As(err, &refused) {
				refused.Name = shown(in.Name)
			}
			return r.record, nil, err
		}
		all.add(r)
	}
	return all.record, all.finish(), nil
}

// together is what was read of several workbooks.
type together struct {
	record field.Record
	faults []field.Fault
	aside  aside
	merger merger
}

// add takes over what was read of one more workbook.
func (t *together) add(r *reader) {
	t.faults = append(t.faults, r.sorted()...)
	if r.number == 0 {
		t.record, t.aside = r.record, r.aside
		return
	}
	t.merger.merge(&t.record, &r.record)
	unite(&t.merger, &t.aside.schedule, r.aside.schedule,
		func(f *field.Fasteners) string { return f.Set.Value + " " + f.Name.Value })
	unite(&t.merger, &t.aside.out, r.aside.out, moveKey)
	for n := range r.aside.bolted {
		t.aside.bolted[n] = true
	}
}

// finish is all faults: of each workbook, then those of all of them together.
func (t *together) finish() []field.Fault {
	t.aside.finish(&t.record)
	return cut(append(append(t.faults, t.merger.faults...), noSuchCells(&t.record)...))
}

// reader reads one workbook. Its first error about the file sticks and ends the
// reading; faults of cells are collected.
type reader struct {
	words  *templates.Words
	book   *book
	record field.Record
	faults []field.Fault
	err    error
	unit   measure.Unit      // meant where none is typed
	rounds []string          // keys of the form's rounds
	labels map[string]string // normalized labels by words key, as needed
	// texts of cells as labels are compared
	normals map[string]string
	used    map[int]bool // sheets that are the form's
	// blocks that the form has, by the first parts of names: "limits", "c03_tilt".
	blocks     map[string]bool
	cellBlocks []block      // of every cell
	headLines  []slot       // of a head, all of them
	driveHeads []field.Head // of the cell that is being read
	aside      aside
	filled     map[cellPlace]bool // cells that a value was read from
	number     int                // of the file in the record
}

func (r *reader) file(in Input) error {
	b, err := openBook(in.Bytes)
	if err != nil {
		return err
	}
	r.book, r.used = b, map[int]bool{}
	sum := sha256.Sum256(in.Bytes)
	r.record.Files = []field.File{{Name: shown(in.Name), SHA256: hex.EncodeToString(sum[:]), Size: len(in.Bytes)}}
	if err := r.form(); err != nil {
		return err
	}
	r.findRounds()
	r.findBlocks()
	for _, s := range towerSheets() {
		for _, k := range s.blocks {
			if !k.optional || r.present(k, "") {
				r.block(k, "", &r.record)
			} else {
				r.lost([]block{k}, "")
			}
			if k.key == "project" {
				r.setUnit()
			}
		}
	}
	r.towerTables()
	r.headLines = headSlots()
	for _, s := range cellSheets() {
		r.cellBlocks = append(r.cellBlocks, s.blocks...)
	}
	for _, n := range r.cellNumbers() {
		r.cell(n)
	}
	r.together()
	if r.err == nil {
		r.contents()
	}
	return r.err
}

// form checks that the workbook is a field form of this version, and takes the
// words in which its labels are written.
func (r *reader) form() error {
	version, ok := r.plain("form_version")
	if !ok {
		return refusal(ErrNotForm, "")
	}
	r.record.Files[0].Form = version
	if version != Version {
		return refusal(ErrVersion, shown(version))
	}
	language, _ := r.plain("form_language")
	if r.words == nil || language != r.words.Tag() {
		words, err := templates.Language(language)
		if err != nil {
			return refusal(ErrVersion, shown(language))
		}
		r.words = words
	}
	return r.err
}

// plain is the text of a named cell of the form itself.
func (r *reader) plain(name string) (string, bool) {
	a, ok := parseArea(r.book.names[name])
	if !ok {
		return "", false
	}
	s := r.book.sheet(a.sheet)
	if s == nil {
		return "", false
	}
	r.used[s.index] = true
	c, blank := r.at(s, a.from)
	return c.text, !blank
}

// setUnit takes the unit that is meant where none is typed.
func (r *reader) setUnit() {
	if u, err := measure.ParseUnit(r.record.Project.Units.Value); err == nil {
		r.unit = u
	}
}

// findRounds takes the rounds that the form's names speak of.
func (r *reader) findRounds() {
	found := map[string]bool{}
	for name := range r.book.names {
		if _, ok := cellOf(name); !ok {
			continue
		}
		for _, key := range allRounds {
			for _, part := range nameParts(name) {
				found[key] = found[key] || part == key
			}
		}
	}
	for _, key := range allRounds {
		if found[key] {
			r.rounds = append(r.rounds, key)
		}
	}
}

// cellNumbers are those that the form's names speak of, ascending.
func (r *reader) cellNumbers() []int {
	found := map[int]bool{}
	for name := range r.book.names {
		if n, ok := cellOf(name); ok {
			found[n] = true
		}
	}
	numbers := make([]int, 0, len(found))
	for n := range found {
		numbers = append(numbers, n)
	}
	sort.Ints(numbers)
	return numbers
}

// cell reads the blocks of one cell. A block without a single name is one that
// the form was made without.
func (r *reader) cell(n int) {
	c := field.Cell{Number: n}
	prefix := cellPrefix(n)
	r.driveHeads = nil
	r.aside.stacks, r.aside.moves, r.aside.vibration = nil, nil, nil
	var missing []block
	for _, k := range r.cellBlocks {
		if r.present(k, prefix) {
			r.block(k, prefix, &c)
		} else {
			missing = append(missing, k)
		}
	}
	r.lost(missing, prefix)
	r.assemble(&c)
	r.record.Cells = append(r.record.Cells, c)
}

func (r *reader) present(k block, prefix string) bool {
	return k.key == "" || r.blocks[k.name(prefix)]
}

// findBlocks takes the blocks that the form's names speak of.
func (r *reader) findBlocks() {
	r.blocks = map[string]bool{}
	for name := range r.book.names {
		start := 0
		if n, ok := cellOf(name); ok {
			start = len(cellPrefix(n))
		}
		if i := strings.IndexByte(name[start:], '_'); i >= 0 {
			name = name[:start+i]
		}
		r.blocks[name] = true
	}
}

func (r *reader) block(k block, prefix string, owner any) {
	if r.err != nil {
		return
	}
	if k.aside {
		owner = &r.aside
	}
	switch k.shape {
	case formShape:
		r.formBlock(k, prefix, k.owner(owner))
	case tableShape:
		r.tableBlock(k, prefix, owner)
	case keyedShape, listShape:
		r.keyedBlock(k, prefix, owner)
	case columnShape:
		r.columnBlock(k, prefix, owner)
	case degreeShape:
		r.degreeBlock(k)
	case headShape:
		r.headBlock(k, prefix, owner.(*field.Cell))
	case seriesShape:
		r.seriesBlock(k, prefix, owner.(*field.Cell))
	}
}

// at is the cell of a sheet; an error of the file sticks.
func (r *reader) at(s *bookSheet, p pos) (rawCell, bool) {
	if r.err != nil {
		return rawCell{}, true
	}
	g, err := r.book.gridOf(s)
	if err != nil {
		r.err = err
		return rawCell{}, true
	}
	return g.at(p)
}

// fault records a fault at a cell.
func (r *reader) fault(kind field.FaultKind, s *bookSheet, p pos, read, expected, detail string) {
	r.faults = append(r.faults, field.Fault{Kind: kind, At: r.ref(s, p), Read: shown(read),
		Expected: expected, Detail: detail})
}

func (r *reader) ref(s *bookSheet, p pos) field.Ref {
	if s == nil {
		return field.Ref{}
	}
	return field.Ref{File: r.number, Sheet: s.title, Cell: p.String()}
}

// sorted is the faults by sheet, row and column; those without a place first.
func (r *reader) sorted() []field.Fault {
	place := func(f field.Fault) [3]int {
		p, _ := parsePos(f.At.Cell)
		if s := r.book.sheet(f.At.Sheet); s != nil {
			return [3]int{s.index + 1, p.row, p.col}
		}
		return [3]int{}
	}
	sort.SliceStable(r.faults, func(i, j int) bool {
		a, b := place(r.faults[i]), place(r.faults[j])
		for n := range a {
			if a[n] != b[n] {
				return a[n] < b[n]
			}
		}
		return r.faults[i].Kind < r.faults[j].Kind
	})
	return r.faults
}

// cut is the first of many faults, and how many more there are.
func cut(faults []field.Fault) []field.Fault {
	if left := len(faults) - maxFaults; left > 0 {
		return append(faults[:maxFaults:maxFaults], field.Fault{Kind: TooManyFault, Read: strconv.Itoa(left)})
	}
	return faults
}
