package main

import (
	"path/filepath"
	"strings"
)

// writeEach writes a package for each cell: into a folder, or, where a PDF is
// named, that as the package of all and the cells' beside it.
func writeEach(s *source, out string) error {
	cells := s.job.Each()
	if len(cells) == 0 {
		return useError("noCell")
	}
	var list []target
	ending := filepath.Ext(out)
	isFile := strings.EqualFold(ending, ".pdf")
	if isFile {
		list = append(list, target{out, s.job})
	} else if err := makeFolder(out); err != nil {
		return err
	}
	for _, c := range cells {
		path := filepath.Join(out, c.Name+".pdf")
		if isFile {
			path = strings.TrimSuffix(out, ending) + "-" + c.Name + ending
		}
		list = append(list, target{path, c.Job})
	}
	return writePackages(s, list)
}
