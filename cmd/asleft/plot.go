package main

import (
	"path/filepath"

	"asleft/report"
)

// plot writes the figures as SVG files into a folder.
func (p *program) plot(args []string) error {
	f := p.flags("plot")
	dir := f.StringP("output", "o", "", "")
	files, done, err := p.parse(f, args)
	if err != nil || done {
		return err
	}
	switch {
	case len(files) == 0:
		return useError("noFile", "command", "plot")
	case *dir == "":
		return useError("noFolder")
	}
	s, err := open(files, report.Options{Unattached: true})
	if err != nil {
		return err
	}
	figures, err := s.job.Figures()
	if err != nil {
		return inFile(s.name(), err)
	}
	if err := makeFolder(*dir); err != nil {
		return err
	}
	for _, fig := range figures {
		if err := writeOutput(filepath.Join(*dir, fig.Name), s.infos, fig.Bytes); err != nil {
			return err
		}
	}
	return nil
}
