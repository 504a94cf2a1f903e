package licenses

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the list and the texts anew")

// library is what comes with the language.
const library = "Go standard library"

// TestListIsThatOfTheBuild asks the go command which modules the program is
// built of, on every system, and compares names, versions and texts.
func TestListIsThatOfTheBuild(t *testing.T) {
	want := []Part{{Name: library, License: "BSD-3-Clause", Text: read(t, filepath.Join(goEnv(t, "GOROOT"), "LICENSE"))}}
	for _, m := range modules(t) {
		path, rest, _ := strings.Cut(m, " ")
		version, dir, _ := strings.Cut(rest, " ")
		text := licenseOf(t, dir)
		want = append(want, Part{path, version, identifier(t, path, text), text})
	}
	if *update {
		write(t, want)
	}
	if got := Modules(); !slices.Equal(got, want) {
		t.Errorf("the list is out of date: go test ./internal/licenses -update\ngot  %s\nwant %s", names(got), names(want))
	}
}

func names(parts []Part) (all []string) {
	for _, p := range parts {
		all = append(all, fmt.Sprintf("%s %s %s %d", p.Name, p.Version, p.License, len(p.Text)))
	}
	return all
}

func TestEmbedded(t *testing.T) {
	for _, p := range Embedded() {
		if p.License == "OFL-1.1" != strings.Contains(p.Text, "SIL OPEN FONT LICENSE Version 1.1") || len(p.Text) < 200 {
			t.Errorf("%s: text of %d bytes is not of %s", p.Name, len(p.Text), p.License)
		}
	}
}

func goEnv(t *testing.T, key string) string {
	b, err := exec.Command("go", "env", key).Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(b))
}

// modules are path, version and folder of all, sorted.
func modules(t *testing.T) []string {
	var all []string
	for _, system := range []string{"linux", "windows", "darwin"} {
		c := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}} {{.Dir}}{{end}}{{end}}", "asleft/cmd/asleft")
		c.Env = append(os.Environ(), "GOOS="+system, "GOARCH=amd64", "CGO_ENABLED=0")
		out, err := c.Output()
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(out)) {
			if line = strings.TrimSpace(line); line != "" {
				all = append(all, line)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

func read(t *testing.T, path string) string {
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(bytes.ReplaceAll(b, []byte("\r\n"), []byte("\n")))
}

// between stands between two files of one module.
const between = "\n----\n\n"

// licenseOf joins the license files of a module.
func licenseOf(t *testing.T, dir string) string {
	var texts []string
	for _, pattern := range []string{"LICENSE*", "COPYING*", "licenses/ftl.txt", "THIRD_PARTY_LICENSES/*", "PATENTS", "NOTICE*"} {
		found, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range found {
			if info, err := os.Stat(f); err == nil && info.Mode().IsRegular() {
				texts = append(texts, read(t, f))
			}
		}
	}
	if len(texts) == 0 {
		t.Fatalf("%s has no license", dir)
	}
	return strings.Join(texts, between)
}

// identifier knows a license by its text.
func identifier(t *testing.T, module, text string) string {
	plain := func(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }
	own, _, _ := strings.Cut(text, between)
	own, _, _ = strings.Cut(own, "\nFiles: ") // from there on, of folders that are not used here
	flat := plain(own)
	if strings.Contains(flat, "exactly one of the following") { // the choice is the second file
		flat = plain(text)
	}
	has := func(s string) bool { return strings.Contains(flat, s) }
	switch {
	case has("freetype project license"):
		return "FTL"
	case has("apache license version 2.0"):
		return "Apache-2.0"
	case has("permission is hereby granted, free of charge"):
		return "MIT"
	case has("redistribution and use") && has("neither the name"):
		return "BSD-3-Clause"
	case has("redistribution and use"):
		return "BSD-2-Clause"
	}
	t.Fatalf("%s has a license that is not known here", module)
	return ""
}

func write(t *testing.T, parts []Part) {
	var list strings.Builder
	if err := os.RemoveAll("texts"); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir("texts", 0o755); err != nil {
		t.Fatal(err)
	}
	for _, p := range parts {
		fmt.Fprintf(&list, "%s\t%s\t%s\n", p.Name, p.Version, p.License)
		if err := os.WriteFile(filepath.Join("texts", fileName(p.Name)), []byte(p.Text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile("list.tsv", []byte(list.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}
