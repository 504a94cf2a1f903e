package archive

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Every test that the conformance list names exists.
func TestConformanceListNamesTests(t *testing.T) {
	list, err := os.ReadFile("CONFORMANCE.md")
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob("*_test.go")
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(b)
	}
	names := regexp.MustCompile("`((?:Test|Fuzz)[A-Za-z]+)`").FindAllStringSubmatch(string(list), -1)
	if len(names) == 0 {
		t.Error("no tests named")
	}
	for _, n := range names {
		if !strings.Contains(all.String(), "func "+n[1]+"(") {
			t.Errorf("no %s", n[1])
		}
	}
}
