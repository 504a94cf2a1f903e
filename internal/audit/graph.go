package audit

import (
	"bytes"
	"math/big"
	"reflect"
	"strconv"
	"strings"

	"asleft/internal/archive"
)

// place is where in a file something stands: the keys and indexes that lead to it
// from the trailer, shortest way first.
type place struct {
	up   *place
	key  string
	page int // from 1, of the page it belongs to; 0 for none
}

func (p *place) under(key string) *place { return &place{p, key, p.page} }

// keys are the keys from the trailer down.
func (p *place) keys() []string {
	var out []string
	for ; p != nil && p.up != nil; p = p.up {
		out = append(out, p.key)
	}
	for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
		out[i], out[j] = out[j], out[i]
	}
	return out
}

// pair is an object of one file and the one that stands in its place in the other.
type pair struct{ a, b archive.Ref }

// graph compares two files object by object, wherever the objects stand and
// whatever their numbers are.
type graph struct {
	a, b  *archive.Reader
	pages map[archive.Ref]int // of a, from 1
	seen  map[pair]bool
	used  map[archive.Ref]bool // of a, that something leads to
	queue []pair
	at    []*place
	found []*place
	whole bool // everything was compared
}

// Bounds of what is compared: far above what any package has.
const (
	maxPairs       = 2 << 20
	maxDifferences = 2000
)

// skipped are the keys that say how a stream or a section is written, not what.
var skipped = map[archive.Name]bool{"Length": true, "Prev": true, "Size": true, "W": true, "Index": true,
	"Filter": true, "DecodeParms": true, "Type": true, "XRefStm": true}

// differences lists where two files differ, in the order of their distance from
// the top.
func differences(a, b *archive.Reader) *graph {
	g := &graph{a: a, b: b, pages: map[archive.Ref]int{}, seen: map[pair]bool{}, used: map[archive.Ref]bool{}, whole: true}
	if pages, err := a.Pages(); err == nil {
		for i, p := range pages {
			g.pages[archive.Ref(p.Object)] = i + 1
		}
	}
	x, y := trailer(a), trailer(b)
	g.compare(x, y, &place{})
	for len(g.queue) > 0 {
		if len(g.seen) > maxPairs || len(g.found) > maxDifferences {
			g.whole = false
			break
		}
		next, at := g.queue[0], g.at[0]
		g.queue, g.at = g.queue[1:], g.at[1:]
		g.objects(next, at)
	}
	return g
}

// trailer is the trailer without what only says how the file is written.
func trailer(r *archive.Reader) archive.Dict {
	d := archive.Dict{}
	for k, v := range r.Trailer() {
		if !skipped[k] {
			d[k] = v
		}
	}
	return d
}

// unused counts the objects that nothing leads to. Those that only hold others, or
// say where they are, do not count.
func (g *graph) unused() int {
	n := 0
	for i := range g.a.Revisions() {
		for _, number := range g.a.RevisionObjects(i).Written {
			if g.used[archive.Ref(number)] || !g.whole {
				continue
			}
			o, err := g.a.Object(number)
			s, ok := o.(*archive.Stream)
			if err == nil && ok && (s.Dict["Type"] == archive.Name("ObjStm") || s.Dict["Type"] == archive.Name("XRef")) {
				continue
			}
			n++
		}
	}
	return n
}

func (g *graph) objects(p pair, at *place) {
	if n := g.pages[p.a]; n > 0 {
		at.page = n
	}
	x, err1 := g.a.Object(int(p.a))
	y, err2 := g.b.Object(int(p.b))
	if err1 != nil || err2 != nil {
		if err1 == nil || err2 == nil {
			g.found = append(g.found, at)
		}
		return
	}
	g.compare(x, y, at)
}

// compare compares two objects. Whether one stands in its place or is referred to
// makes no difference, nor how a number is written.
func (g *graph) compare(x, y archive.Object, at *place) {
	_, far1 := x.(archive.Ref)
	_, far2 := y.(archive.Ref)
	if far1 != far2 {
		g.across(x, y, at)
		return
	}
	switch x := x.(type) {
	case archive.Ref:
		y := y.(archive.Ref)
		if p := (pair{x, y}); !g.seen[p] {
			g.seen[p], g.used[x] = true, true
			g.queue, g.at = append(g.queue, p), append(g.at, at)
		}
	case archive.Dict:
		y, ok := y.(archive.Dict)
		if !ok {
			g.found = append(g.found, at)
			return
		}
		g.dicts(x, y, at, nil)
	case archive.Array:
		y, ok := y.(archive.Array)
		if !ok || len(x) != len(y) {
			g.found = append(g.found, at)
		}
		for i := range min(len(x), len(y)) {
			g.compare(x[i], y[i], at.under(strconv.Itoa(i)))
		}
	case *archive.Stream:
		y, ok := y.(*archive.Stream)
		if !ok || !g.streams(x, y) {
			g.found = append(g.found, at)
		}
		if ok {
			g.dicts(x.Dict, y.Dict, at, skipped)
		}
	case int64, archive.Real:
		if !sameNumber(x, y) {
			g.found = append(g.found, at)
		}
	default:
		if !reflect.DeepEqual(x, y) {
			g.found = append(g.found, at)
		}
	}
}

// across compares an object with a reference to one.
func (g *graph) across(x, y archive.Object, at *place) {
	if ref, ok := x.(archive.Ref); ok {
		if g.used[ref] {
			g.found = append(g.found, at) // each is told once, and rings end
			return
		}
		g.used[ref] = true
	}
	v, err1 := g.a.Resolve(x)
	w, err2 := g.b.Resolve(y)
	if err1 != nil || err2 != nil {
		g.found = append(g.found, at)
		return
	}
	g.compare(v, w, at)
}

// sameNumber tells whether two objects are the same number, however written.
func sameNumber(x, y archive.Object) bool {
	a, ok1 := rational(x)
	b, ok2 := rational(y)
	return ok1 && ok2 && a.Cmp(b) == 0
}

// longestNumber is more digits than any number of ours has.
const longestNumber = 40

func rational(o archive.Object) (*big.Rat, bool) {
	switch v := o.(type) {
	case int64:
		return new(big.Rat).SetInt64(v), true
	case archive.Real:
		if len(v) <= longestNumber && !strings.ContainsAny(string(v), "eEpPxX/_") {
			return new(big.Rat).SetString(string(v))
		}
	}
	return nil, false
}

func (g *graph) dicts(x, y archive.Dict, at *place, but map[archive.Name]bool) {
	for _, k := range sortedKeys(x) {
		if but[k] {
			continue
		}
		if v, ok := y[k]; ok {
			g.compare(x[k], v, at.under(string(k)))
			continue
		}
		g.found = append(g.found, at.under(string(k)))
	}
	for _, k := range sortedKeys(y) {
		if _, ok := x[k]; !ok && !but[k] {
			g.found = append(g.found, at.under(string(k)))
		}
	}
}

// streams compares data: as it stands, else decoded. Nothing, packed, is nothing.
func (g *graph) streams(x, y *archive.Stream) bool {
	if bytes.Equal(x.Raw, y.Raw) && reflect.DeepEqual(x.Dict["Filter"], y.Dict["Filter"]) {
		return true
	}
	a, err1 := decoded(g.a, x)
	b, err2 := decoded(g.b, y)
	return err1 == nil && err2 == nil && bytes.Equal(a, b)
}

func decoded(r *archive.Reader, s *archive.Stream) ([]byte, error) {
	if len(s.Raw) == 0 {
		return nil, nil
	}
	return r.Decode(s)
}
