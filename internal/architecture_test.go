// Package internal_test holds the rules between packages: who may import whom,
// and what packages that compute must never touch. DEVELOPERS.md tells why.
package internal_test

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const module = "asleft/"

// imports is the table of layers: the packages of ours that each one may
// import, apart from tests. A package that is not here may not exist.
var imports = map[string][]string{
	"fonts":              {},
	"templates":          {},
	"internal/measure":   {},
	"internal/licenses":  {"fonts"},
	"internal/fit":       {},
	"internal/field":     {"internal/measure"},
	"internal/workbook":  {"internal/deflate", "internal/field", "internal/measure", "templates"},
	"internal/assess":    {"internal/field", "internal/fit", "internal/measure"},
	"internal/correct":   {"internal/assess", "internal/field", "internal/fit", "internal/measure"},
	"internal/screen":    {"internal/field", "internal/fit", "internal/measure"},
	"internal/data":      {"internal/assess", "internal/correct", "internal/field", "internal/measure"},
	"internal/plot":      {"fonts"},
	"internal/deflate":   {},
	"internal/archive":   {"internal/deflate"},
	"internal/page":      {"fonts", "internal/archive", "internal/plot"},
	"internal/sign":      {"fonts", "internal/archive"},
	"internal/enclosure": {"internal/archive", "internal/field"},
	"internal/register":  {"internal/archive", "internal/data", "internal/sign", "templates"},
	"internal/compose": {"internal/archive", "internal/assess", "internal/audit", "internal/correct", "internal/data", "internal/enclosure",
		"internal/field", "internal/measure", "internal/page", "internal/plot", "internal/screen", "templates", "internal/licenses"},
	"internal/audit": {"internal/archive", "internal/data", "internal/field", "internal/screen", "internal/sign"},
	"report": {"fonts", "internal/archive", "internal/assess", "internal/audit", "internal/compose", "internal/correct",
		"internal/data", "internal/enclosure", "internal/field", "internal/measure", "internal/page", "internal/plot",
		"internal/register", "internal/sign", "internal/workbook", "templates", "internal/licenses"},
	"cmd/asleft": {"report", "templates"},

	// A program of its own, for contributors: it fills the demonstration forms.
	"internal/workbook/makedemo": {"internal/field", "internal/measure", "internal/workbook"},

	// Pictures of pages, for tests: nothing else knows it.
	"internal/lookbook": {},

	// A program for contributors: it makes what a release promises to read for ever.
	"internal/freeze": {"report"},

	// Programs for contributors: what the finished program takes, and the least
	// that its libraries would.
	"internal/bench":       {"internal/archive"},
	"internal/bench/floor": {"fonts"},
}

// onlyIn says where a library may be used: nowhere else is it known.
var onlyIn = map[string][]string{
	"encoding/json":                    {"internal/data", "internal/register"},
	"github.com/xuri/excelize/v2":      {"internal/register", "internal/workbook", "internal/workbook/makedemo", "internal/bench/floor"},
	"github.com/go-pdf/fpdf":           {"internal/page", "internal/bench/floor"},
	"github.com/wcharczuk/go-chart/v2": {"internal/plot", "internal/page"},
	"github.com/spf13/pflag":           {"cmd/asleft"},
	"golang.org/x/term":                {"cmd/asleft"},
	"github.com/BurntSushi/toml":       {"templates"},
}

// computing are the packages whose every result follows from their arguments.
var computing = []string{"internal/measure", "internal/fit", "internal/field", "internal/assess", "internal/correct", "internal/screen"}

// banned reach files, clocks, the environment, chance, fonts or pages.
var banned = []string{"os", "time", "io/fs", "embed", "net", "path/filepath", "syscall", "runtime",
	"math/rand", "crypto/rand", "unsafe", "log"}

// prefixes of imports that packages that compute may use, besides the standard
// library: numerics only.
const numerics = "gonum.org/v1/gonum/"

type pkg struct {
	path    string // below the module
	dir     string
	files   []string
	imports []string
}

func packages(t *testing.T) []pkg {
	t.Helper()
	list := exec.Command("go", "list", "-f",
		`{{.ImportPath}}{{"\t"}}{{.Dir}}{{"\t"}}{{join .GoFiles " "}}{{"\t"}}{{join .Imports " "}}`, "asleft/...")
	var stderr bytes.Buffer
	list.Stderr = &stderr
	out, err := list.Output()
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, stderr.Bytes())
	}
	var all []pkg
	for line := range strings.Lines(string(out)) {
		f := strings.Split(strings.TrimRight(line, "\n"), "\t")
		p := pkg{strings.TrimPrefix(f[0], module), f[1], strings.Fields(f[2]), strings.Fields(f[3])}
		if len(p.files) > 0 {
			all = append(all, p)
		}
	}
	return all
}

func TestImportsFollowTheTable(t *testing.T) {
	for _, p := range packages(t) {
		allowed, known := imports[p.path]
		if !known {
			t.Errorf("%s is not in the table of layers", p.path)
			continue
		}
		for _, i := range p.imports {
			ours, isOurs := strings.CutPrefix(i, module)
			if isOurs && !slices.Contains(allowed, ours) {
				t.Errorf("%s imports %s", p.path, ours)
			}
		}
	}
}

func TestLibrariesStayWhereTheyBelong(t *testing.T) {
	for _, p := range packages(t) {
		for _, i := range p.imports {
			if where, limited := onlyIn[i]; limited && !slices.Contains(where, p.path) {
				t.Errorf("%s imports %s", p.path, i)
			}
			if strings.HasPrefix(i, numerics) && !slices.Contains(computing, p.path) {
				t.Errorf("%s imports %s", p.path, i)
			}
		}
	}
}

func TestPackagesThatComputeTouchNothingOutside(t *testing.T) {
	for _, p := range packages(t) {
		if !slices.Contains(computing, p.path) {
			continue
		}
		for _, i := range p.imports {
			if slices.Contains(banned, i) || slices.Contains(banned, strings.SplitN(i, "/", 2)[0]) {
				t.Errorf("%s imports %s", p.path, i)
			}
			foreign := strings.Contains(strings.SplitN(i, "/", 2)[0], ".")
			if foreign && !strings.HasPrefix(i, numerics) {
				t.Errorf("%s imports %s", p.path, i)
			}
		}
	}
}

// hidden are calls whose result depends on when and where the program runs;
// only the command may make them, and the program that measures it.
var hidden = map[string][]string{
	"time": {"Now", "Since", "Until", "Local"},
	"os":   {"Getenv", "LookupEnv", "Environ", "Hostname", "Getwd", "UserHomeDir"},
}

func TestNoClockNoEnvironmentNoInit(t *testing.T) {
	for _, p := range packages(t) {
		for _, name := range p.files {
			tree, err := parser.ParseFile(token.NewFileSet(), filepath.Join(p.dir, name), nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			where := p.path + "/" + name
			ast.Inspect(tree, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.FuncDecl:
					if n.Recv == nil && n.Name.Name == "init" {
						t.Errorf("%s has an init function", where)
					}
				case *ast.SelectorExpr:
					if x, ok := n.X.(*ast.Ident); ok && slices.Contains(hidden[x.Name], n.Sel.Name) && p.path != "cmd/asleft" && p.path != "internal/bench" {
						t.Errorf("%s uses %s.%s", where, x.Name, n.Sel.Name)
					}
				}
				return true
			})
		}
	}
}
