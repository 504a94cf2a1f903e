package main

import (
	"os"
	"runtime/debug"
	"testing"

	"asleft/report"
)

// The size of all workbooks together decides, and GOGC over that.
func TestGreatJobsSpareMemory(t *testing.T) {
	const usual = 100
	for _, c := range []struct {
		name  string
		sizes []int64
		gogc  bool
		want  int
	}{
		{"one of the usual size", []int64{greatJob - 1}, false, usual},
		{"two that are great together", []int64{greatJob - 1, 1}, false, tightPercent},
		{"great, but asked otherwise", []int64{greatJob}, true, usual},
	} {
		t.Run(c.name, func(t *testing.T) {
			defer debug.SetGCPercent(debug.SetGCPercent(usual))
			t.Setenv("GOGC", "100")
			if !c.gogc {
				os.Unsetenv("GOGC") // Setenv puts back what was there
			}
			var sources []report.Source
			for _, size := range c.sizes {
				sources = append(sources, report.Source{Size: size})
			}
			spareMemory(sources)
			if got := debug.SetGCPercent(usual); got != c.want {
				t.Errorf("%d percent, want %d", got, c.want)
			}
		})
	}
}
