package report

import (
	"asleft/internal/compose"
	"asleft/templates"
)

// printer prints values and codes as the pages do. A printer is for one
// goroutine, a job for many, so each call gets its own.
func (j *Job) printer() compose.Printer { return compose.NewPrinter(j.input()) }

// beside are the words that safety wording is printed in as well.
func beside(w *templates.Words) compose.Words {
	if e := w.Beside(); e != nil {
		return e
	}
	return nil
}
