package main

import (
	"os"
	"runtime/debug"

	"asleft/report"
)

// greatJob is the size of workbooks from which on memory counts for more than
// time: some 230 cells of the demonstration.
const greatJob = 6 << 20

// tightPercent is how much garbage may lie beside what is in use, in percent of
// that. Measured at 500 cells: eight tenths of the peak memory for about a tenth
// more processor time.
const tightPercent = 60

// spareMemory has the memory of a great job collected more often than that of
// others. What the environment asks for stands.
func spareMemory(sources []report.Source) {
	if _, asked := os.LookupEnv("GOGC"); !asked && isGreat(sources) {
		debug.SetGCPercent(tightPercent)
	}
}

func isGreat(sources []report.Source) bool {
	var size int64
	for _, s := range sources {
		size += s.Size
	}
	return size >= greatJob
}
