package page

import (
	"fmt"
	"runtime"
	"testing"
)

// tableBook is a book of about pages pages, nearly all of it tables.
func tableBook(pages int) Book {
	b := testBook()
	b.Sections = nil
	for i := range pages / 4 {
		s := Section{Key: fmt.Sprintf("part.%d", i), Head: testHead("Tables"), Blocks: []Block{
			Heading{Level: 1, Runs: runs(run(fmt.Sprintf("Part %d", i))), Bookmark: fmt.Sprint(i)},
			readings(fmt.Sprintf("part.%d", i), 170),
		}}
		b.Sections = append(b.Sections, s)
	}
	return b
}

func BenchmarkPlace(b *testing.B) {
	for _, pages := range []int{40, 400} {
		b.Run(fmt.Sprint(pages), func(b *testing.B) {
			book, m := tableBook(pages), metrics(b)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Place(book, m); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkEmit(b *testing.B) {
	for _, pages := range []int{40, 400} {
		b.Run(fmt.Sprint(pages), func(b *testing.B) {
			p := placed(b, tableBook(pages))
			b.ReportAllocs()
			b.ReportMetric(float64(p.Pages()), "pages")
			for b.Loop() {
				if _, _, err := Emit(p); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkMetrics(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		metrics(b)
	}
}

// TestThousandPages: a book of a thousand pages is placed and drawn, and ten times the
// pages take not much more than ten times the memory, which anything that grows with
// the square would. Time is for the benchmarks.
func TestThousandPages(t *testing.T) {
	if testing.Short() {
		t.Skip("a thousand pages")
	}
	spend := func(pages int) (bytes uint64, n int) {
		book := tableBook(pages)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		p := placed(t, book)
		if _, _, err := Emit(p); err != nil {
			t.Fatal(err)
		}
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc, p.Pages()
	}
	small, _ := spend(100)
	large, n := spend(1000)
	t.Logf("100 pages: %d bytes, %d pages: %d", small, n, large)
	if n < 950 {
		t.Errorf("%d pages, expected about 1000", n)
	}
	if large > 12*small {
		t.Errorf("100 pages take %d bytes, %d pages %d", small, n, large)
	}
}
