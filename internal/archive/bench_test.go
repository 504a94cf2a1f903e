package archive

import (
	"fmt"
	"testing"
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

func BenchmarkFinish(b *testing.B) {
	for _, pages := range []int{20, 40, 300, 1500} {
		b.Run(fmt.Sprintf("pages=%d", pages), func(b *testing.B) {
			s := drawTables(pages, 36)
			raw := s.output(b)
			b.ReportAllocs()
			b.SetBytes(int64(len(raw)))
			size := 0
			for b.Loop() {
				out, err := Finish(raw, s.doc)
				if err != nil {
					b.Fatal(err)
				}
				size = len(out)
			}
			b.ReportMetric(float64(len(raw))/float64(pages)/1024, "rawKB/page")
			b.ReportMetric(float64(size)/float64(pages)/1024, "KB/page")
		})
	}
}
