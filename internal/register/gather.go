package register

import (
	"context"
	"errors"
	"runtime"

	"asleft/internal/data"
)

// File is a workbook given to a [Judge].
type File struct {
	Name  string // base name
	Bytes []byte
}

// Judge reads and judges the workbooks of one tower and returns its data file.
// [ErrNoForm] is a workbook that is not the field form; any other error is told
// as it is. It is called from several goroutines.
type Judge func(files []File) ([]byte, error)

// ErrNoForm is a workbook that has nothing to do with this program.
var ErrNoForm = errors.New("not made from the field form")

// Identity is what names a tower and the document about it.
type Identity struct{ Plant, Tag, Document, Revision string }

func (t *Tower) identity() Identity { return Identity{t.Plant, t.Tag, t.Document, t.Revision} }

// Options is how folders are gone through.
type Options struct {
	Judge   Judge
	Workers int // goroutines; 0 is one for each processor
	// Progress is told how many of the files are done. It is called from one
	// goroutine at a time.
	Progress func(done, total int)
}

func workers(asked int) int {
	if asked > 0 {
		return asked
	}
	return runtime.GOMAXPROCS(0)
}

// gathering is one run over the folders.
type gathering struct {
	options     Options
	register    *Register
	byHash      map[string][]int // towers read from packages, by the hash of a workbook
	alone       []book           // workbooks that lie in no package
	texts       texts
	done, total int
}

// Gather reads everything in the folders: packages first, then the workbooks
// that lie in none of them. What cannot be read becomes a [Fault] and stops
// nothing. The only error is that of the context.
func Gather(ctx context.Context, roots []Root, o Options) (*Register, error) {
	o.Workers = workers(o.Workers)
	g := &gathering{options: o, register: &Register{}, byHash: map[string][]int{}, texts: texts{}}
	found, faults := walk(roots)
	g.register.Faults = faults
	g.total = len(found.packages) + len(found.workbooks)
	g.tell(0)
	each(ctx, o.Workers, found.packages, readTower, g.addPackage)
	each(ctx, o.Workers, found.workbooks, g.judge, g.addWorkbook)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	g.together()
	g.register.finish()
	return g.register, nil
}

// tell says how far the run is.
func (g *gathering) tell(more int) {
	g.done += more
	if g.options.Progress != nil {
		g.options.Progress(g.done, g.total)
	}
}

func (g *gathering) fault(at place, err error) {
	g.register.Faults = append(g.register.Faults, Fault{at.String(), err.Error()})
}

// packaged is a package that was read.
type packaged struct {
	tower   Tower
	sources []string // SHA-256 of its workbooks
	err     error
}

func readTower(at place) packaged {
	b, err := at.read()
	if err != nil {
		return packaged{err: err}
	}
	t, sources, err := readPackage(b, at.besides())
	t.Path = at.String()
	return packaged{t, sources, err}
}

func (g *gathering) addPackage(at place, p packaged) {
	defer g.tell(1)
	switch {
	case errors.Is(p.err, errOther):
		g.register.Other++
	case p.err != nil:
		g.fault(at, p.err)
	default:
		n := len(g.register.Towers)
		g.texts.tower(&p.tower)
		g.register.Towers = append(g.register.Towers, p.tower)
		for _, s := range p.sources {
			g.byHash[s] = append(g.byHash[s], n)
		}
	}
}

// book is a workbook that was read, and its tower unless it lies in a package.
type book struct {
	at    place
	hash  string
	tower Tower
	err   error
}

// judge works out a workbook that lies in no package. The packages do not change
// while it runs.
func (g *gathering) judge(at place) book {
	b, err := at.read()
	if err != nil {
		return book{at: at, err: err}
	}
	out := book{at: at, hash: hash(b)}
	if len(g.byHash[out.hash]) == 0 {
		out.tower, out.err = g.tower(at, []File{{at.base(), b}})
	}
	return out
}

// tower works out the tower of workbooks; its path is that of the first.
func (g *gathering) tower(at place, files []File) (Tower, error) {
	d, err := g.options.Judge(files)
	if err != nil {
		return Tower{}, err
	}
	doc, err := data.Read(d)
	if err != nil {
		return Tower{}, err
	}
	t := towerOf(doc)
	t.Path, t.Workbooks = at.String(), []string{at.String()}
	return t, nil
}

func (g *gathering) addWorkbook(at place, b book) {
	defer g.tell(1)
	in := g.byHash[b.hash]
	switch {
	case errors.Is(b.err, ErrNoForm):
		g.register.Other++
	case b.err != nil:
		g.fault(at, b.err)
	case len(in) > 0:
		for _, n := range in {
			t := &g.register.Towers[n]
			t.Workbooks = append(t.Workbooks, at.String())
		}
	default:
		g.texts.tower(&b.tower)
		g.alone = append(g.alone, b)
	}
}
