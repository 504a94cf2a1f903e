package register

import (
	"cmp"
	"path"
	"slices"
)

// together works out workbooks that are parts of one tower as one. Their files
// are read once more for that.
func (g *gathering) together() {
	for _, books := range grouped(g.alone, func(b book) (place, Identity) { return b.at, b.tower.identity() }) {
		g.addTower(books)
	}
}

// grouped takes workbooks of one folder that name the same tower and document
// for parts of it, one a cell or a crew. Those without a tower's tag stay alone.
func grouped[T any](all []T, name func(T) (place, Identity)) [][]T {
	type group struct {
		root *Root
		dir  string
		Identity
	}
	index := map[group]int{}
	var out [][]T
	for _, one := range all {
		at, id := name(one)
		key := group{at.root, path.Dir(at.path), id}
		n, known := index[key]
		if !known || id.Tag == "" {
			n = len(out)
			out = append(out, nil)
			index[key] = n
		}
		out[n] = append(out[n], one)
	}
	return out
}

func (g *gathering) addTower(books []book) {
	first := books[0]
	t, err := first.tower, error(nil)
	if len(books) > 1 {
		t, err = g.merged(books)
	}
	if err != nil {
		g.fault(first.at, err)
		return
	}
	g.register.Judged++
	g.register.Towers = append(g.register.Towers, t)
}

func (g *gathering) merged(books []book) (Tower, error) {
	var files []File
	var paths []string
	for _, b := range books {
		content, err := b.at.read()
		if err != nil {
			return Tower{}, err
		}
		files = append(files, File{b.at.base(), content})
		paths = append(paths, b.at.String())
	}
	t, err := g.tower(books[0].at, files)
	t.Workbooks = paths
	return t, err
}

// finish puts everything in order and finds towers that stand there twice.
func (r *Register) finish() {
	slices.SortStableFunc(r.Towers, func(a, b Tower) int { return cmp.Compare(a.Path, b.Path) })
	slices.SortStableFunc(r.Faults, func(a, b Fault) int { return cmp.Compare(a.Path, b.Path) })
	same := map[Identity][]int{}
	for i := range r.Towers {
		t := &r.Towers[i]
		if t.Tag == "" && t.Document == "" {
			continue
		}
		same[t.identity()] = append(same[t.identity()], i)
	}
	for _, group := range same {
		for _, i := range group {
			for _, other := range group {
				if other != i {
					r.Towers[i].Same = append(r.Towers[i].Same, r.Towers[other].Path)
				}
			}
		}
	}
}
