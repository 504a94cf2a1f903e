package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"time"

	"golang.org/x/term"

	"asleft/report"
)

// signing is what the options of the command say.
type signing struct {
	file, key, certificate, output string
	passwordEnv                    string
	passwordFD                     int
	o                              report.SignOptions
}

// noFD is a file number that stands for none.
const noFD = -1

// sign signs the field of a role.
func (p *program) sign(args []string) error {
	var s signing
	f := p.flags("sign")
	f.StringVarP(&s.output, "output", "o", "", "")
	f.StringVar(&s.o.Role, "role", "", "")
	f.StringVar(&s.key, "key", "", "")
	f.StringVar(&s.certificate, "cert", "", "")
	f.StringVar(&s.passwordEnv, "password-env", "", "")
	f.IntVar(&s.passwordFD, "password-fd", noFD, "")
	f.StringVar(&s.o.Name, "name", "", "")
	f.StringVar(&s.o.Organization, "organization", "", "")
	f.StringVar(&s.o.Meaning, "meaning", "", "")
	f.StringVar(&s.o.Place, "place", "", "")
	f.StringVar(&s.o.Service, "tsa", "", "")
	f.BoolVar(&s.o.Certify, "certify", false, "")
	f.BoolVar(&s.o.AsIs, "as-is", false, "")
	files, done, err := p.parse(f, args)
	if err != nil || done {
		return err
	}
	if err := s.check(files); err != nil {
		return err
	}
	return p.signFile(&s)
}

// check finds wrong use.
func (s *signing) check(files []string) error {
	switch {
	case len(files) != 1:
		return useError("sign.onefile")
	case s.o.Role == "":
		return useError("sign.norole")
	case s.key == "":
		return useError("sign.nokey")
	case s.output == "":
		return useError("sign.nooutput")
	case s.passwordEnv != "" && s.passwordFD != noFD:
		return useError("sign.twopasswords")
	}
	s.file = files[0]
	return nil
}

// signFile reads the files, signs, writes, and says what was reached.
func (p *program) signFile(s *signing) error {
	file, info, err := readInput(s.file)
	if err != nil {
		return err
	}
	inputs := []fs.FileInfo{info}
	if err := s.mayWrite(inputs); err != nil {
		return err // before the password is asked for
	}
	if s.o.Key, info, err = readInput(s.key); err != nil {
		return err
	}
	inputs = append(inputs, info)
	if s.certificate != "" {
		if s.o.Certificates, info, err = readInput(s.certificate); err != nil {
			return err
		}
		inputs = append(inputs, info)
	}
	if err := s.mayWrite(inputs); err != nil {
		return err
	}
	if report.NeedsPassword(s.o.Key) {
		if s.o.Password, err = p.password(s); err != nil {
			return err
		}
	}
	s.o.At = time.Now().Truncate(time.Second)
	s.o.Client = &http.Client{Transport: http.DefaultTransport}
	var out bytes.Buffer
	signed, err := report.Sign(context.Background(), &out, bytes.NewReader(file), int64(len(file)), s.o)
	if err != nil {
		return p.notSigned(s, err)
	}
	if err := writeOutput(s.output, inputs, out.Bytes()); err != nil {
		return err
	}
	p.tellSigned(signed)
	return nil
}

// mayWrite refuses an output that is one of the inputs, or signed.
func (s *signing) mayWrite(inputs []fs.FileInfo) error {
	_, _, err := checkOutput(s.output, inputs)
	if errors.Is(err, errIsInput) {
		return useError("sign.isinput", "output", s.output)
	}
	return err
}

// maxInput bounds what the command reads into memory, in bytes.
const maxInput = 1 << 30

// readInput reads a regular file whole.
func readInput(path string) ([]byte, fs.FileInfo, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, nil, inFile(path, plainCause(err))
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return nil, nil, inFile(path, plainCause(err))
	case info.IsDir():
		return nil, nil, inFile(path, errIsFolder)
	case !info.Mode().IsRegular():
		return nil, nil, inFile(path, errNotRegular)
	}
	b, err := io.ReadAll(io.LimitReader(f, maxInput))
	if err != nil {
		return nil, nil, inFile(path, plainCause(err))
	}
	return b, info, nil
}

// maxPassword is the longest password that is read, in bytes.
const maxPassword = 4096

// password takes the password of the key file from where it was said to be, else
// asks for it.
func (p *program) password(s *signing) (string, error) {
	switch {
	case s.passwordEnv != "":
		text, ok := os.LookupEnv(s.passwordEnv)
		if !ok {
			return "", useError("sign.noenv", "name", s.passwordEnv)
		}
		return text, nil
	case s.passwordFD != noFD:
		return passwordFrom(s.passwordFD)
	}
	in, ok := p.in.(*os.File)
	if !ok || !term.IsTerminal(int(in.Fd())) {
		return "", useError("sign.noterminal", "file", s.key)
	}
	fmt.Fprint(p.err, p.words.Say("cli.sign.password", "file", filepath.Base(s.key)))
	text, err := term.ReadPassword(int(in.Fd()))
	fmt.Fprintln(p.err)
	return string(text), err
}

// passwordFrom reads the first line of an open file.
func passwordFrom(fd int) (string, error) {
	n := fmt.Sprint(fd)
	if fd < 0 {
		return "", useError("sign.badfd", "n", n, "cause", "no file number")
	}
	f := os.NewFile(uintptr(fd), "password")
	if f == nil {
		return "", useError("sign.badfd", "n", n, "cause", "no file number")
	}
	line, err := firstLine(f)
	if err != nil {
		return "", useError("sign.badfd", "n", n, "cause", plainCause(err).Error())
	}
	return line, nil
}

// firstLine reads a line; its end may be missing, and is left out.
func firstLine(r io.Reader) (string, error) {
	line, err := bufio.NewReader(io.LimitReader(r, maxPassword)).ReadString('\n')
	if err != nil && (!errors.Is(err, io.EOF) || line == "") {
		return "", err
	}
	return strings.TrimRight(line, "\r\n"), nil
}

// notSigned says why, and turns it into an exit status.
func (p *program) notSigned(s *signing, err error) error {
	var e *report.SignError
	if !errors.As(err, &e) {
		return inFile(s.file, err)
	}
	code := string(e.Code)
	p.say("cli.error.sign."+code, "cli.hint.sign."+code,
		"file", s.file, "key", s.key, "role", s.o.Role, "tsa", s.o.Service, "detail", e.Detail)
	switch e.Code {
	case report.SignRole, report.SignKeyFile, report.SignPassword, report.SignUnreadable:
		return errSilent // wrong use, or unreadable
	}
	return errNo
}

// tellSigned says what was reached and what it is worth.
func (p *program) tellSigned(s *report.Signed) {
	tell := func(key string, pairs ...string) { fmt.Fprintln(p.out, p.words.Say("cli.sign."+key, pairs...)) }
	tell("done", "role", s.Role, "revision", fmt.Sprint(s.Revision))
	if s.AsIs {
		tell("asis")
	}
	if s.Stamped.IsZero() {
		tell("levelBB")
	} else {
		tell("levelBT", "time", s.Stamped.UTC().Format(time.RFC3339), "notary", s.Notary)
	}
	tell("certificate", "subject", s.Subject, "issuer", s.Issuer, "algorithm", s.Algorithm,
		"until", s.ValidUntil.UTC().Format(time.DateOnly))
	if s.SelfIssued {
		tell("selfissued")
	}
	tell("noseal")
}
