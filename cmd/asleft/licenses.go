package main

import (
	"fmt"

	"asleft/report"
)

// licenses lists what others made and under which license, or prints the
// licenses in full.
func (p *program) licenses(args []string) error {
	f := p.flags("licenses")
	full := f.Bool("full", false, "")
	rest, done, err := p.parse(f, args)
	if err != nil || done {
		return err
	}
	if len(rest) > 0 {
		return useError("noArguments", "command", "licenses")
	}
	all := report.Licenses()
	if *full {
		for _, l := range all {
			if _, err := fmt.Fprintf(p.out, "%s %s (%s)\n\n%s\n\n", l.Name, l.Version, l.License, l.Text); err != nil {
				return err
			}
		}
		return nil
	}
	var columns []column
	for _, head := range []string{"name", "version", "license"} {
		columns = append(columns, column{head: p.words.Say("cli.licenses." + head), wraps: head == "version"})
	}
	var rows [][]string
	for _, l := range all {
		rows = append(rows, []string{l.Name, l.Version, l.License})
	}
	_, err = p.out.Write([]byte(table(columns, rows, nil, terminal(p.out).width)))
	return err
}
