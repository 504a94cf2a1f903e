package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"asleft/internal/field"
	"asleft/templates"
)

// A mutant is a valid workbook in which one thing was changed. Read must either
// take from it what it says, or refuse it with a reason and a place; it must
// never take anything else, and never panic, hang or swell.

// original is what mutants are made of.
type original struct {
	name   string
	bytes  []byte
	order  []string          // of the parts
	parts  map[string][]byte // unpacked
	sheets map[string]string // part of each sheet by title
	boxes  []formBox         // filled ones
	record map[string][]leaf
	dated  []string // style numbers of dates

}

// mutant is a changed workbook and what must come of it.
type mutant struct {
	bytes []byte
	// box is the place of a changed cell, "" where none or more were changed.
	box  string
	want *intended // of that cell; nil: as it is written
	// same: what is taken must be that of the original.
	same bool
	// refused: nothing may be taken.
	refused bool
}

// maker makes a mutant; ok is false where the original has nothing to change.
type maker struct {
	class string
	make  func(*original, *rand.Rand) (mutant, bool)
}

func newOriginal(tb testing.TB, name string, b []byte, boxes []formBox) *original {
	tb.Helper()
	o := &original{name: name, bytes: b, sheets: map[string]string{}}
	o.order, o.parts = partsOf(tb, b)
	book, err := openBook(b)
	if err != nil {
		tb.Fatal(err)
	}
	for _, s := range book.sheets {
		o.sheets[s.title] = s.part
	}
	for i, f := range book.formats {
		if f.date {
			o.dated = append(o.dated, itoa(i))
		}
	}
	o.record = leaves(clean(tb, b))
	for _, x := range boxes {
		if len(o.record[x.String()]) > 0 {
			o.boxes = append(o.boxes, x)
		}
	}
	return o
}

// pack packs changed parts without compressing them.
func (o *original) pack(changed map[string][]byte) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	put := func(name string, body []byte) {
		w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store})
		if err == nil {
			_, err = w.Write(body)
		}
		if err != nil {
			panic(err)
		}
	}
	for _, name := range o.order {
		body := o.parts[name]
		if c, ok := changed[name]; ok {
			body = c
		}
		if body != nil {
			put(name, body)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(changed)) {
		if o.parts[name] == nil && changed[name] != nil {
			put(strings.TrimSuffix(name, again), changed[name])
		}
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return out.Bytes()
}

// again marks a changed part that is put beside the one of the same name.
const again = "\x00again"

// with is a mutant with one part changed.
func (o *original) with(part string, body []byte) mutant {
	return mutant{bytes: o.pack(map[string][]byte{part: body})}
}

// What may come of a mutant.
const (
	whole    = "file refused"
	atBox    = "cell refused"
	other    = "refused, other place told"
	taken    = "taken as it is"
	asBefore = "taken, nothing changed"
)

// judge reads a mutant and says what came of it; problem is what must not be.
func (o *original) judge(m mutant) (outcome, problem string) {
	record, faults, err := readGuarded(m.bytes)
	var refused *FileError
	switch {
	case errors.As(err, &refused):
		if refused.Kind == nil {
			return whole, "refused without a reason"
		}
		return whole, ""
	case err != nil:
		return whole, err.Error()
	case len(faults) > 0:
		return o.judgeFaults(m, faults)
	case m.refused:
		return taken, "taken"
	}
	got := leaves(record)
	changed := differing(o.record, got)
	if len(changed) == 0 && m.box == "" {
		return asBefore, ""
	}
	if m.same {
		return taken, fmt.Sprintf("taken differently: %s", o.first(changed, got))
	}
	if m.box == "" {
		return taken, compareRaw(m.bytes, changed, o.record, got)
	}
	for _, at := range changed {
		if at != m.box && !o.follows(at, m, got) {
			return taken, fmt.Sprintf("%s changed with %s: %s", at, m.box, o.first([]string{at}, got))
		}
	}
	return taken, m.want.compare(got[m.box])
}

// follows tells whether a difference at one place may come of a change at
// another: positions go by where the first one lies, a bare number by the form's
// unit, and a line of a head stands for those below it that are blank.
func (o *original) follows(at string, m mutant, got map[string][]leaf) bool {
	if at == "" {
		return true
	}
	if strings.HasPrefix(at, "Fasteners!") && o.chooses(m.box) {
		return true // the schedule goes to the cells that name its sets
	}
	if m.want != nil && m.want.blank && len(o.record[at]) == 0 {
		return compareRaw(m.bytes, []string{at}, o.record, got) == ""
	}
	texts := func(l []leaf) (all []string) {
		for _, x := range l {
			all = append(all, x.typed)
		}
		return slices.Compact(all)
	}
	return m.box == o.units() && slices.Equal(texts(o.record[at]), texts(got[at]))
}

// chooses tells whether a box takes a word of a list.
func (o *original) chooses(box string) bool {
	return slices.ContainsFunc(o.boxes, func(b formBox) bool { return b.slot.list != nil && b.String() == box })
}

// units is the box that says which unit is meant.
func (o *original) units() string {
	for _, b := range o.boxes {
		if b.slot.key == "units" {
			return b.String()
		}
	}
	return ""
}

func (o *original) first(changed []string, got map[string][]leaf) string {
	if len(changed) == 0 {
		return ""
	}
	at := changed[0]
	return fmt.Sprintf("%d places, at %q %v was %v", len(changed), at, got[at], o.record[at])
}

func (o *original) judgeFaults(m mutant, faults []field.Fault) (outcome, problem string) {
	outcome = other
	for _, f := range faults {
		if f.At.Cell == "" && f.Detail == "" && f.Read == "" {
			return outcome, fmt.Sprintf("fault %s without a place", f.Kind)
		}
		if m.box != "" && f.At.String() == m.box {
			outcome = atBox
		}
	}
	return outcome, ""
}

// maxMutantTime is far above what is needed, since the machine may be busy.
const maxMutantTime = 20 * time.Second

// mutantWords are parsed once.
var mutantWords = sync.OnceValue(func() *templates.Words {
	w, _ := templates.Language("en")
	return w
})

// readGuarded reads, and turns a panic into an error.
func readGuarded(b []byte) (record field.Record, faults []field.Fault, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("panic: %v", r)
		}
	}()
	return Read([]Input{{"mutant.xlsx", b}}, mutantWords())
}

// tally counts outcomes by class.
type tally struct {
	sync.Mutex
	counts   map[string]map[string]int
	problems []string
}

func (t *tally) add(class, outcome, problem string) {
	t.Lock()
	defer t.Unlock()
	if t.counts[class] == nil {
		t.counts[class] = map[string]int{}
	}
	t.counts[class][outcome]++
	if problem != "" {
		t.problems = append(t.problems, problem)
	}
}

func (t *tally) report(tb testing.TB) {
	var out strings.Builder
	total := 0
	for _, class := range slices.Sorted(maps.Keys(t.counts)) {
		fmt.Fprintf(&out, "\n%-34s", class)
		for _, o := range []string{whole, atBox, other, taken, asBefore} {
			fmt.Fprintf(&out, "%7d", t.counts[class][o])
			total += t.counts[class][o]
		}
	}
	tb.Logf("%d mutants: %s; %s; %s; %s; %s%s", total, whole, atBox, other, taken, asBefore, out.String())
	slices.Sort(t.problems)
	for i, p := range t.problems {
		if i == 40 {
			tb.Errorf("and %d more", len(t.problems)-i)
			break
		}
		tb.Error(p)
	}
}

// run makes and judges n mutants. Mutant i is the same in every run.
func run(tb testing.TB, originals []*original, n int) {
	tb.Helper()
	makers := mutantMakers()
	t := &tally{counts: map[string]map[string]int{}}
	var wg sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				one(originals, makers, i, t)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
	t.report(tb)
}

// one makes and judges mutant i.
func one(originals []*original, makers []maker, i int, t *tally) {
	r := rand.New(rand.NewPCG(uint64(i), 1))
	o := originals[i%len(originals)]
	k := makers[i/len(originals)%len(makers)]
	m, ok := k.make(o, r)
	if !ok {
		t.add(k.class, asBefore, "")
		return
	}
	start := time.Now()
	outcome, problem := o.judge(m)
	if took := time.Since(start); took > maxMutantTime {
		problem += fmt.Sprintf(" took %s", took)
	}
	if problem != "" {
		problem = fmt.Sprintf("mutant %d of %s, %s: %s", i, o.name, k.class, problem)
	}
	t.add(k.class, outcome, problem)
}

// TestMutants judges some hundreds; many more are judged with build tag outside.
func TestMutants(t *testing.T) {
	run(t, []*original{filledOriginal(t)}, 300)
}

func filledOriginal(tb testing.TB) *original {
	tb.Helper()
	b, err := filledForm()
	if err != nil {
		tb.Fatal(err)
	}
	boxes, err := boxesOf(tiny)
	if err != nil {
		tb.Fatal(err)
	}
	return newOriginal(tb, "the filled form", b, boxes)
}
