package archive

import (
	"math"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// checkDocument reports everything in the declarations that keeps a file from
// being what it claims, except the structure tree.
func checkDocument(d *Document, out *findings) {
	for _, f := range []struct {
		name, value string
		needed      bool
	}{
		{"title", d.Title, true}, {"author", d.Author, false}, {"subject", d.Subject, false},
		{"creator", d.Creator, true}, {"keywords", strings.Join(d.Keywords, ", "), false},
	} {
		if f.needed && strings.TrimSpace(f.value) == "" || !printable(f.value) {
			out.add(RuleMetadata, f.name, "missing, too long or not printable: %.40q", f.value)
		}
	}
	if !languageTag.MatchString(d.Lang) {
		out.add(RuleMetadata, "language", "%q is no language tag", d.Lang)
	}
	if y := d.Issued.Year(); d.Issued.IsZero() || y < 1900 || y > 9999 {
		out.add(RuleMetadata, "issue date", "missing or out of range")
	}
	if d.Profile != PDFA3A && d.Profile != PDFA2A {
		out.add(RuleMetadata, "profile", "unknown profile %d", d.Profile)
	}
	checkColorProfile(d.ColorProfile, out)
	checkFiles(d, out)
	checkLabels(d.Pages, out)
	checkBookmarks(d.Outline, len(d.Pages), "", 1, out)
}

// languageTag is the common form of BCP 47: language, script, region, variants.
var languageTag = regexp.MustCompile(`^[A-Za-z]{2,3}(-[A-Za-z]{4})?(-([A-Za-z]{2}|[0-9]{3}))?(-[A-Za-z0-9]{5,8})*$`)

// maxTextLength bounds a text in bytes, so that as UTF-16 it stays below
// maxStringLength.
const maxTextLength = 16_000

// printable tells whether s is valid, of bearable length, and free of control
// characters, surrogates and non-characters, so that XML and a screen reader can
// take it.
func printable(s string) bool {
	if !utf8.ValidString(s) || len(s) > maxTextLength {
		return false
	}
	for _, r := range s {
		if r >= ' ' && r <= '~' {
			continue
		}
		if unicode.IsControl(r) || r == 0xFEFF || r == 0xFFFE || r == 0xFFFF {
			return false
		}
	}
	return true
}

// spoken is printable text that is not blank.
func spoken(s string) bool { return strings.TrimSpace(s) != "" && printable(s) }

// checkColorProfile checks the head of the profile (ICC.1:2010, 7.2): its
// length, RGB data, display class, and a version below 5.
func checkColorProfile(p []byte, out *findings) {
	ok := len(p) >= 128 && string(p[36:40]) == "acsp" && string(p[16:20]) == "RGB " &&
		string(p[12:16]) == "mntr" && p[8] < 5
	if !ok || int(p[0])<<24|int(p[1])<<16|int(p[2])<<8|int(p[3]) != len(p) {
		out.add(RuleMetadata, "color profile", "no RGB display profile")
	}
}

// mediaType is a type of RFC 2045 without parameters.
var mediaType = regexp.MustCompile(`^[a-z]+/[A-Za-z0-9][A-Za-z0-9.+_-]*$`)

// fileName is a plain name that no system takes for a path.
var fileName = regexp.MustCompile(`^[A-Za-z0-9_][A-Za-z0-9 ._+()-]{0,119}$`)

func checkFiles(d *Document, out *findings) {
	if d.Profile == PDFA2A && len(d.Files) > 0 {
		out.add(RuleFile, "document", "PDF/A-2 file with attached files")
	}
	seen := map[string]bool{}
	for _, f := range d.Files {
		where := "file " + f.Name
		if !fileName.MatchString(f.Name) {
			out.add(RuleFile, where, "%q is no plain file name", f.Name)
		}
		if key := strings.ToLower(f.Name); seen[key] {
			out.add(RuleFile, where, "name used twice")
		} else {
			seen[key] = true
		}
		if !mediaType.MatchString(f.MIME) || !spoken(f.Description) || f.Modified.IsZero() {
			out.add(RuleFile, where, "type, description or date missing")
		}
		if f.Relationship != Source && f.Relationship != Data && f.Relationship != Supplement {
			out.add(RuleFile, where, "relationship %q", f.Relationship)
		}
	}
}

func checkLabels(pages []Page, out *findings) {
	if len(pages) == 0 {
		out.add(RulePage, "document", "no pages")
	}
	seen := map[string]int{}
	for i, p := range pages {
		if !spoken(p.Label) {
			out.add(RulePage, pageName(i), "label %q", p.Label)
		}
		if first, twice := seen[p.Label]; twice {
			out.add(RulePage, pageName(i), "label %q is that of %s too", p.Label, pageName(first))
		} else {
			seen[p.Label] = i
		}
	}
}

func checkBookmarks(list []Bookmark, pages int, path string, depth int, out *findings) {
	if depth > maxTreeDepth {
		out.add(RuleOutline, path, "deeper than %d", maxTreeDepth)
		return
	}
	for _, b := range list {
		where := path + "/" + b.Text
		if !spoken(b.Text) {
			out.add(RuleOutline, where, "no text")
		}
		if !b.To.valid(pages) {
			out.add(RuleOutline, where, "target is not in the document")
		}
		checkBookmarks(b.Kids, pages, where, depth+1, out)
	}
}

func (t Target) valid(pages int) bool {
	return t.Page >= 0 && t.Page < pages && finite(t.Top)
}

// maxCoordinate bounds positions on a page, in points (ISO 19005-3, 6.1.13
// allows pages of 14 400 units).
const maxCoordinate = 14_400

func finite(v float64) bool { return math.Abs(v) <= maxCoordinate } // false for NaN

// valid tells whether the rectangle has an area.
func (r Rect) valid() bool {
	return finite(r.X0) && finite(r.Y0) && finite(r.X1) && finite(r.Y1) && r.X0 < r.X1 && r.Y0 < r.Y1
}

// fontName is a PostScript name.
var fontName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9_-]{0,62}$`)

// nameFonts gives each embedded font its declared name.
func nameFonts(d *Document, raw *rawFile) {
	names := map[Name]string{}
	for _, f := range d.Fonts {
		if !fontName.MatchString(f.Name) {
			raw.add(RuleFont, "font "+f.Written, "%q is no PostScript name", f.Name)
		}
		if _, twice := names[Name(f.Written)]; twice {
			raw.add(RuleFont, "font "+f.Written, "declared twice")
		}
		names[Name(f.Written)] = f.Name
	}
	for _, resource := range raw.fontNames() {
		f := raw.fonts[resource]
		name, ok := names[f.written]
		if !ok {
			raw.add(RuleFont, "font "+string(f.written), "not declared")
		}
		f.name = Name(name)
	}
}

// textID tells whether an identifier is fit to be one: printable, no spaces.
func textID(s string) bool {
	for _, r := range s {
		if r <= ' ' || r == utf8.RuneError || r >= 0x7F && (unicode.IsControl(r) || unicode.IsSpace(r)) {
			return false
		}
	}
	return len(s) <= maxIDLength
}

// maxIDLength bounds an element's identifier, in bytes.
const maxIDLength = 1024
