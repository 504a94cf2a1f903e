package main

import (
	"fmt"
	"runtime/debug"

	"asleft/report"
)

// help prints the page of the program, or of one command.
func (p *program) help(args []string) error {
	key := "cli.usage"
	switch {
	case len(args) > 1:
		return useError("helpOne")
	case len(args) == 1:
		key = "cli.help." + args[0]
		if !p.words.Has(key) {
			return useError("unknownCommand", "word", args[0])
		}
	}
	_, err := fmt.Fprint(p.out, p.words.Say(key))
	return err
}

// version prints the version, the rule set, and what the program was built
// from as far as it was recorded.
func (p *program) version(args []string) error {
	if len(args) > 0 {
		return useError("noArguments", "command", "version")
	}
	rules, err := report.Rules()
	if err != nil {
		return err
	}
	fmt.Fprintf(p.out, "asleft %s\n%s\n", report.Version,
		p.words.Say("cli.version.rules", "version", rules.Version, "hash", rules.SHA256))
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return nil
	}
	fmt.Fprintln(p.out, p.words.Say("cli.version.go", "go", info.GoVersion))
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			fmt.Fprintln(p.out, p.words.Say("cli.version.revision", "revision", s.Value))
		}
	}
	return nil
}
