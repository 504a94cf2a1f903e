package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"asleft/report"
	"asleft/templates"
)

// Exit statuses.
const (
	statusDone  = 0
	statusNo    = 1 // the answer is no: not within, or refused
	statusWrong = 2 // unreadable, faulty, or wrong use
)

// command is one verb of the program. Its words are in the language files under
// "cli.help." + name.
type command struct {
	name string
	run  func(*program, []string) error
}

// commands lists the verbs in the order of the help page.
func commands() []command {
	return []command{
		{"form", (*program).form},
		{"check", (*program).check},
		{"report", (*program).report},
		{"card", (*program).card},
		{"plot", (*program).plot},
		{"sign", (*program).sign},
		{"audit", (*program).audit},
		{"register", (*program).register},
		{"help", (*program).help},
		{"version", (*program).version},
		{"licenses", (*program).licenses},
	}
}

// program is one run: its streams and its words.
type program struct {
	in       io.Reader
	out, err io.Writer
	words    *templates.Words
}

// language is that of help and error messages.
const language = "en"

// run is the whole program: arguments without the program's name in, exit
// status out.
func run(args []string, in io.Reader, out, err io.Writer) int {
	words, e := templates.Language(language)
	if e != nil {
		fmt.Fprintln(err, "asleft:", e)
		return statusWrong
	}
	p := &program{in: in, out: out, err: err, words: words}
	return p.finish(p.dispatch(args))
}

// dispatch finds the command, or takes a lone workbook for one to report on.
func (p *program) dispatch(args []string) error {
	if len(args) == 0 {
		fmt.Fprint(p.err, p.words.Say("cli.usage"))
		return errSilent
	}
	for _, c := range commands() {
		if c.name == args[0] {
			return c.run(p, args[1:])
		}
	}
	switch {
	case args[0] == "-h" || args[0] == "--help":
		return p.help(args[1:])
	case args[0] == "--version":
		return p.version(args[1:])
	case len(args) == 1 && strings.HasSuffix(strings.ToLower(args[0]), ".xlsx"):
		return p.beside(args[0])
	}
	return useError("unknownCommand", "word", args[0])
}

// errSilent ends the program with the status of wrong use; everything has been
// said.
var errSilent = errors.New("silent")

// errNo ends the program with the status of a negative answer; everything has
// been said.
var errNo = errors.New("no")

// adviceError is an error of the command itself. Its text and its hint are
// phrases of the language.
type adviceError struct {
	key   string
	pairs []string
}

func useError(key string, pairs ...string) error { return &adviceError{key, pairs} }

func (e *adviceError) Error() string { return e.key + " " + strings.Join(e.pairs, " ") }

// finish says what went wrong and turns it into an exit status.
func (p *program) finish(err error) int {
	var advice *adviceError
	var faults *report.FaultError
	switch {
	case err == nil:
		return statusDone
	case errors.Is(err, errNo):
		return statusNo
	case errors.Is(err, errSilent):
		return statusWrong
	case errors.As(err, &faults):
		p.faults(faults)
		return statusWrong
	case errors.As(err, &advice):
		p.say("cli.error."+advice.key, "cli.hint."+advice.key, advice.pairs...)
		return statusWrong
	}
	// Several causes are several lines; all but the first are set in.
	fmt.Fprintf(p.err, "asleft: %s\n", strings.ReplaceAll(err.Error(), "\n", "\n  "))
	p.hint(hintFor(err))
	if refused(err) {
		return statusNo
	}
	return statusWrong
}

// refused tells errors that are a refusal rather than a mistake: the workbook
// is in order, but the output must not or cannot be written.
func refused(err error) bool {
	return errors.Is(err, report.ErrRefused) || errors.Is(err, errSigned)
}

// say prints an error from the language files, and its hint where it has one.
func (p *program) say(key, hint string, pairs ...string) {
	fmt.Fprintf(p.err, "asleft: %s\n", p.words.Say(key, pairs...))
	p.hint(hint, pairs...)
}

// hint prints advice, one line each.
func (p *program) hint(key string, pairs ...string) {
	if key == "" || !p.words.Has(key) {
		return
	}
	for line := range strings.Lines(p.words.Say(key, pairs...)) {
		fmt.Fprintf(p.err, "hint: %s\n", strings.TrimRight(line, "\n"))
	}
}

// faults lists everything in the workbooks that cannot be read as intended. Of
// several workbooks each line names its own.
func (p *program) faults(e *report.FaultError) {
	n := fmt.Sprint(len(e.Faults))
	form := "many"
	if len(e.Faults) == 1 {
		form = "one"
	}
	if e.Several {
		form = "several" + form
	}
	key := "cli.faults." + form
	fmt.Fprintf(p.err, "asleft: %s\n", p.words.Say(key, "n", n))
	for _, f := range e.Faults {
		file := ""
		if e.Several && f.File != "" && f.Sheet != "" {
			file = f.File + ": "
		}
		fmt.Fprintf(p.err, "  %s%s\n", file, f)
	}
	p.hint("cli.hint.faults")
}

// flags makes the option set of a command. Options may stand before or after
// files.
func (p *program) flags(name string) *pflag.FlagSet {
	f := pflag.NewFlagSet(name, pflag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.BoolP("help", "h", false, "")
	return f
}

// parse reads the options of a command. It returns the other arguments, or
// done where help was asked for and given.
func (p *program) parse(f *pflag.FlagSet, args []string) (rest []string, done bool, err error) {
	if err := f.Parse(args); err != nil {
		return nil, false, useError("options", "command", f.Name(), "cause", err.Error())
	}
	if asked, _ := f.GetBool("help"); asked {
		return nil, true, p.help([]string{f.Name()})
	}
	return f.Args(), false, nil
}
