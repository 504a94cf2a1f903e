package deflate

import (
	"bytes"
	"compress/flate"
	"compress/zlib"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"
)

// unpack reads a stream with the standard library, which refuses what RFC 1950 and
// RFC 1951 do not allow.
func unpack(t testing.TB, packed []byte) []byte {
	t.Helper()
	r, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	out, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// objects is a list as an object stream holds it.
func objects(n int) []byte {
	var b bytes.Buffer
	for i := range n {
		fmt.Fprintf(&b, "%d %d ", 4000+i, 60*i+i%7)
	}
	for i := range n {
		fmt.Fprintf(&b, "<</S/TD/P %d 0 R/Pg %d 0 R/K %d>>\n", 1700+i/5, 12+i/90, i%90)
	}
	return b.Bytes()
}

func noise(n int) []byte {
	r := rand.New(rand.NewPCG(1, 2))
	b := make([]byte, n)
	for i := range b {
		b[i] = byte(r.Uint32())
	}
	return b
}

func TestZlib(t *testing.T) {
	inputs := map[string][]byte{
		"nothing":            nil,
		"one byte":           {0},
		"three bytes":        []byte("aaa"),
		"four bytes":         []byte("aaaa"),
		"a longest match":    bytes.Repeat([]byte("a"), 259),
		"all bytes":          noise(1 << 12),
		"noise":              noise(3*stretch + 7),
		"one byte, long":     make([]byte, 5*stretch+1),
		"a stretch":          objects(3000)[:stretch],
		"a stretch and one":  objects(3000)[:stretch+1],
		"a stretch less one": objects(3000)[:stretch-1],
		"objects":            objects(5000),
		"a window apart":     append(append([]byte("far away and long ago"), noise(window-21)...), "far away and long ago"...),
		"past the window":    append(append([]byte("far away and long ago"), noise(window)...), "far away and long ago"...),
	}
	var p Packer
	for name, in := range inputs {
		packed := p.Zlib(nil, in)
		if !bytes.Equal(unpack(t, packed), in) {
			t.Errorf("%s: comes back changed", name)
		}
		if most := len(in) + len(in)/50 + 100; len(packed) > most {
			t.Errorf("%s: %d bytes become %d", name, len(in), len(packed))
		}
		deep := Packer{Depth: 64}
		if raw, err := io.ReadAll(flate.NewReader(bytes.NewReader(deep.Raw(nil, in)))); err != nil || !bytes.Equal(raw, in) {
			t.Errorf("%s: comes back changed from a deeper search: %v", name, err)
		}
		var fresh Packer
		if !bytes.Equal(fresh.Zlib(nil, in), packed) {
			t.Errorf("%s: the output depends on what was packed before", name)
		}
		if !bytes.Equal(p.Zlib([]byte("head"), in[:len(in)/3], in[len(in)/3:]), append([]byte("head"), packed...)) {
			t.Errorf("%s: the output depends on the parts", name)
		}
	}
}

// A list of objects takes a quarter less than with the best level of the standard
// library; that is what the package is for.
func TestObjectListsAreSmaller(t *testing.T) {
	in := objects(5000)
	var best bytes.Buffer
	w, err := zlib.NewWriterLevel(&best, zlib.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	_, _ = w.Write(in)
	_ = w.Close()
	var p Packer
	if got := len(p.Zlib(nil, in)); got > best.Len()*3/4 {
		t.Errorf("%d bytes, the standard library's best is %d", got, best.Len())
	}
}

// The way is the cheapest of all, as trying every one of them shows.
func TestWayIsTheCheapest(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		var b strings.Builder
		for range 14 {
			b.WriteByte("abc"[r.IntN(3)])
		}
		p := Packer{src: []byte(b.String())}
		p.finder.reset(depth)
		p.search(0, len(p.src))
		p.steps = make([]step, len(p.src)+1)
		p.price.learn(&histogram{})
		for i := range p.price.literal {
			p.price.literal[i] = uint32(r.IntN(9 * bit))
		}
		for i := range p.price.length {
			p.price.length[i] = uint32(r.IntN(9 * bit))
		}
		got := p.worth(p.way(nil, 0, len(p.src)))
		if want := p.least(0); got != want {
			t.Fatalf("%s: way costs %d, the cheapest %d", p.src, got, want)
		}
	}
}

func (p *Packer) worth(tokens []token) (sum uint32) {
	for _, t := range tokens {
		if t.distance == 0 {
			sum += p.price.literal[t.length]
		} else {
			sum += p.price.length[t.length] + p.price.distance[distSymbol(int(t.distance))]
		}
	}
	return sum
}

// least tries every way from place i on, over the matches found.
func (p *Packer) least(i int) uint32 {
	if i == len(p.src) {
		return 0
	}
	best := p.price.literal[p.src[i]] + p.least(i+1)
	from := minMatch
	for _, m := range p.matches[p.first[i]:p.first[i+1]] {
		for l := from; l <= int(m.length); l++ {
			best = min(best, p.price.length[l]+p.price.distance[distSymbol(int(m.distance))]+p.least(i+l))
		}
		from = int(m.length) + 1
	}
	return best
}

func TestMatchesAreTrue(t *testing.T) {
	p := Packer{src: objects(600)}
	p.finder.reset(depth)
	p.search(0, len(p.src))
	found := 0
	for i := range p.src {
		for _, m := range p.matches[p.first[i]:p.first[i+1]] {
			found++
			at, n := i-int(m.distance), int(m.length)
			if at < 0 || !bytes.Equal(p.src[at:at+n], p.src[i:i+n]) {
				t.Fatalf("place %d: no match of %d bytes, %d back", i, m.length, m.distance)
			}
		}
	}
	if found == 0 {
		t.Error("no match at all")
	}
}

func FuzzZlib(f *testing.F) {
	f.Add([]byte("one object, one object more"), 2)
	f.Add(objects(20), 1)
	f.Add([]byte{}, 9)
	f.Fuzz(func(t *testing.T, unit []byte, times int) {
		in := bytes.Repeat(unit, max(1, times%(1+(1<<17)/max(1, len(unit)))))
		var p Packer
		if !bytes.Equal(unpack(t, p.Zlib(nil, in)), in) {
			t.Error("comes back changed")
		}
	})
}

func BenchmarkZlib(b *testing.B) {
	in := objects(5000)
	var p Packer
	var out []byte
	b.SetBytes(int64(len(in)))
	b.ReportAllocs()
	for b.Loop() {
		out = p.Zlib(out[:0], in)
	}
}
