package archive

import (
	"fmt"
	"runtime"
	"runtime/metrics"
	"testing"
	"time"
)

// drawTables draws a document of table pages: per page one heading, one table of
// so many rows by 8 columns, with an identifier on each value, and one figure. 36
// rows fill the page; a real package is less dense.
func drawTables(pages, rows int) *sample {
	s := newSample()
	for i := range pages {
		s.addPage()
		role := RoleH2
		if i == 0 {
			role = RoleH1
		}
		s.text(role, "bold", 14, 72, 80, fmt.Sprint("Section ", i+1))
		s.table(fmt.Sprintf("cells.%d", i), 110, rows)
		s.figure(600)
		s.doc.Outline = append(s.doc.Outline, Bookmark{Text: fmt.Sprint("Section ", i+1), To: Target{i, 720}})
	}
	return s
}

// Pages and rows of a cell as the demonstration package has them: 16 pages, and
// some 150 elements of structure on each.
const (
	cellPages = 16
	cellRows  = 15
)

// BenchmarkFinish is the finishing pass over packages of so many cells. heapMB is
// what the pass holds at most, on top of the page writer's output.
func BenchmarkFinish(b *testing.B) {
	for _, cells := range []int{6, 100, 500} {
		b.Run(fmt.Sprintf("cells=%d", cells), func(b *testing.B) {
			s := drawTables(cells*cellPages, cellRows)
			raw := s.output(b)
			s.pdf = nil
			b.ReportAllocs()
			size, most := 0, uint64(0)
			for b.Loop() {
				before := heap()
				watch := watchHeap()
				out, err := Finish(raw, s.doc)
				if err != nil {
					b.Fatal(err)
				}
				most = max(most, watch()-before)
				size = len(out)
			}
			b.ReportMetric(float64(len(raw))/float64(cells)/1024, "rawKB/cell")
			b.ReportMetric(float64(size)/float64(cells)/1024, "KB/cell")
			b.ReportMetric(float64(most)/(1<<20), "heapMB")
		})
	}
}

// heap is what is in use when all garbage is gone.
func heap() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// watchHeap looks at the heap every few milliseconds until the function that it
// returns is called, which tells the most it has seen.
func watchHeap() func() uint64 {
	done, most := make(chan bool), make(chan uint64)
	go func() {
		high := uint64(0)
		tick := time.NewTicker(5 * time.Millisecond)
		defer tick.Stop()
		for {
			select {
			case <-tick.C:
			case <-done:
				most <- high
				return
			}
			sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
			metrics.Read(sample)
			high = max(high, sample[0].Value.Uint64())
		}
	}()
	return func() uint64 { done <- true; return <-most }
}
