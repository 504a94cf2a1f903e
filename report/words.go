package report

import "asleft/internal/compose"

// printer prints values and codes as the pages do. A printer is for one
// goroutine, a job for many, so each call gets its own.
func (j *Job) printer() compose.Printer { return compose.NewPrinter(j.input()) }
