package enclosure

import (
	"io/fs"
	"path"
	"strings"
)

// Path is the path of a file system that was meant, if it is one that would be
// read.
func Path(typed string) (string, bool) { return clean(typed) }

// clean makes a path of a file system of what was typed. Backslashes divide as
// slashes do. It refuses, on every system alike, what any of them would take for
// another place or for a device: absolute paths, drives, "..", reserved names,
// names that end in a dot or a blank.
func clean(typed string) (string, bool) {
	p := strings.ReplaceAll(typed, `\`, "/")
	p = strings.TrimPrefix(p, "./")
	if !fs.ValidPath(p) || p == "." {
		return "", false
	}
	for part := range strings.SplitSeq(p, "/") {
		if !goodName(part) {
			return "", false
		}
	}
	return p, true
}

// badLetters stand in no file name under Windows, where a colon also names a
// drive or a stream.
const badLetters = `<>:"|?*`

func goodName(name string) bool {
	if strings.ContainsAny(name, badLetters) || strings.HasSuffix(name, ".") || strings.HasSuffix(name, " ") {
		return false
	}
	for _, r := range name {
		if r < ' ' || r == 0x7f {
			return false
		}
	}
	return !device(name)
}

// device reports the names that Windows keeps for devices, with any ending.
func device(name string) bool {
	base, _, _ := strings.Cut(strings.ToUpper(name), ".")
	base = strings.TrimRight(base, " ")
	switch base {
	case "CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$":
		return true
	}
	for _, port := range []string{"COM", "LPT"} {
		if n, ok := strings.CutPrefix(base, port); ok && (len(n) == 1 && n >= "0" && n <= "9" || n == "¹" || n == "²" || n == "³") {
			return true
		}
	}
	return false
}

// otherCase finds a file that has the name but for capitals: made where they do
// not count.
func otherCase(folder fs.FS, name string) (string, bool) {
	dir, base := path.Split(name)
	entries, err := fs.ReadDir(folder, path.Clean("./"+dir))
	if err != nil {
		return "", false
	}
	for _, e := range entries {
		if strings.EqualFold(e.Name(), base) {
			return dir + e.Name(), true
		}
	}
	return "", false
}

// linked tells whether any part of a path is a link.
func linked(folder fs.FS, name string) bool {
	for at := name; at != "."; at = path.Dir(at) {
		if info, err := fs.Lstat(folder, at); err == nil && info.Mode()&fs.ModeSymlink != 0 {
			return true
		}
	}
	return false
}
