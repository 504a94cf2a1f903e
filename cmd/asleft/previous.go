package main

import (
	"errors"
	"os"

	"asleft/report"
)

// openAfter opens workbooks, and the package that came before where one is
// named. No output may replace that.
func openAfter(files []string, previous string, o report.Options) (*source, error) {
	if previous == "" {
		return open(files, o)
	}
	info, err := os.Stat(previous)
	if err != nil {
		return nil, inFile(previous, plainCause(err))
	}
	if o.Previous, err = os.ReadFile(previous); err != nil {
		return nil, inFile(previous, plainCause(err))
	}
	if len(o.Previous) == 0 {
		return nil, inFile(previous, report.ErrNotPackage)
	}
	s, err := open(files, o)
	var wrong *report.PreviousError
	switch {
	case errors.As(err, &wrong):
		return nil, inFile(previous, wrong)
	case err != nil:
		return nil, err
	}
	s.infos = append(s.infos, info)
	return s, nil
}
