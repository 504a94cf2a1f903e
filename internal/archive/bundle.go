package archive

import (
	"fmt"
	"runtime"
	"strconv"
	"sync"

	"asleft/internal/deflate"
)

// packet is how many objects go into one object stream: many enough that the
// numbers at its head get a code of their own, few enough that a reader need not
// unpack the whole of a great file.
const packet = 6144

// bundler gathers objects without data of their own into object streams. One that
// is full is compressed by workers while the next is written, so that of a great
// file only a few are in memory as they were written.
type bundler struct {
	arena   []byte // objects of the stream being filled; all writing appends here
	head    []byte // their numbers and places
	filled  int    // how many they are
	numbers []int  // of all objects, in the order of the streams
	made    []*ready
	jobs    chan bundle
	spare   chan bundle // whose memory may be used again
	effort  Effort
	group   sync.WaitGroup
}

// bundle is a full object stream that is to be compressed.
type bundle struct {
	head, body []byte
	count      int
	into       *ready
}

// begin starts object n; end ends it.
func (b *bundler) begin(n int) {
	b.numbers = append(b.numbers, n)
	b.head = append(strconv.AppendInt(b.head, int64(n), 10), ' ')
	b.head = append(strconv.AppendInt(b.head, int64(len(b.arena)), 10), ' ')
}

func (b *bundler) end() {
	b.arena = append(b.arena, '\n')
	b.filled++
	if b.filled == packet {
		b.flush()
	}
}

// flush hands what is filled to the workers.
func (b *bundler) flush() {
	if b.filled == 0 {
		return
	}
	if b.jobs == nil {
		b.hire(runtime.GOMAXPROCS(0))
	}
	into := new(ready)
	b.made = append(b.made, into)
	b.jobs <- bundle{b.head, b.arena, b.filled, into}
	next := bundle{}
	select {
	case next = <-b.spare:
	default:
	}
	b.head, b.arena, b.filled = next.head[:0], next.body[:0], 0
}

// hire starts the workers.
func (b *bundler) hire(workers int) {
	b.jobs, b.spare = make(chan bundle), make(chan bundle, workers)
	for range workers {
		b.group.Go(func() {
			pack := packerOf(b.effort)
			for j := range b.jobs {
				*j.into = ready{
					dict: fmt.Sprintf("/Type/ObjStm/N %d/First %d/Filter/FlateDecode", j.count, len(j.head)),
					data: pack(j.head, j.body),
				}
				select {
				case b.spare <- j:
				default:
				}
			}
		})
	}
}

// packerOf is what packs object streams with an effort, for one worker.
func packerOf(e Effort) func(parts ...[]byte) []byte {
	if e == Quick {
		return new(deflater).deflate
	}
	p := new(deflate.Packer)
	if e == Tight {
		p.Depth = tightDepth
	}
	return func(parts ...[]byte) []byte { return p.Zlib(nil, parts...) }
}

// bundles are all object streams, without numbers of their own. Nothing can be
// written after that.
func (b *bundler) bundles() []*ready {
	b.flush()
	if b.jobs != nil {
		close(b.jobs)
		b.group.Wait()
	}
	b.arena, b.head, b.spare = nil, nil, nil
	return b.made
}
