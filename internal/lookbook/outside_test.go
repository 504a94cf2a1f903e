//go:build outside

package lookbook_test

import (
	"errors"
	"flag"
	"fmt"
	"image"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"asleft/internal/lookbook"
)

var update = flag.Bool("update", false, "keep the pictures of pages that differ, as they are now")

func kept(name string) string { return filepath.Join("testdata", "pages", name+".png") }

// TestPagesLookAsReviewed: chosen pages look as they did when somebody looked at
// them and kept the picture.
func TestPagesLookAsReviewed(t *testing.T) {
	files, words := documents(t), map[string]printed{}
	for name, file := range files {
		words[name] = wordsOf(t, file)
	}
	var pairs []lookbook.Pair
	differ := false
	for _, l := range looks {
		n := words[l.document].find(t, l)
		now := lookbook.Reduce(rendered(t, files[l.document], n), words[l.document].hashes(n))
		p := pair(t, l, n, now)
		pairs = append(pairs, p)
		if p.Same {
			continue
		}
		differ = true
		if *update {
			must(t, os.MkdirAll(filepath.Dir(kept(l.name)), 0o755))
			must(t, lookbook.WritePicture(kept(l.name), now))
			continue
		}
		t.Errorf("%s, %s, is not as it was kept: similarity %.2f at %v, color %.1f at %v",
			p.Name, p.From, p.Distance.Similarity, p.Distance.Dissimilar, p.Distance.Color, p.Distance.Discolored)
	}
	if differ || *update {
		folder, err := os.MkdirTemp("", "look-book-")
		must(t, err)
		must(t, lookbook.WriteSheet(folder, pairs))
		fmt.Println("to look at:", filepath.Join(folder, "look-book.html"))
	}
}

func pair(t *testing.T, l look, n int, now image.Image) lookbook.Pair {
	t.Helper()
	p := lookbook.Pair{Name: l.name, From: fmt.Sprintf("page %d of %s", n, l.document), Now: now}
	before, err := lookbook.ReadPicture(kept(l.name))
	if errors.Is(err, fs.ErrNotExist) {
		return p
	}
	must(t, err)
	p.Kept = before
	if p.Distance, err = lookbook.Compare(before, now); errors.Is(err, lookbook.ErrSize) {
		return p
	}
	must(t, err)
	p.Same = p.Distance.Same()
	return p
}

// TestKeptPicturesAreShown: no picture lies there that no page is held against,
// and all of them together stay small.
func TestKeptPicturesAreShown(t *testing.T) {
	const most = 1_500_000
	names := map[string]bool{}
	for _, l := range looks {
		names[l.name] = true
	}
	files, err := filepath.Glob(kept("*"))
	must(t, err)
	var size int64
	for _, f := range files {
		if !names[strings.TrimSuffix(filepath.Base(f), ".png")] {
			t.Errorf("%s: no page of that name", f)
		}
		stat, err := os.Stat(f)
		must(t, err)
		size += stat.Size()
	}
	if size > most {
		t.Errorf("%d bytes of pictures, more than %d", size, most)
	}
}

// TestOtherPrograms: other programs that draw the same page, with edges of their
// own, are taken for the same.
func TestOtherPrograms(t *testing.T) {
	files := documents(t)
	for _, l := range looks {
		if !slices.Contains([]string{"front", "summary", "by-position", "metric-front", "card"}, l.name) {
			continue
		}
		file := files[l.document]
		n := wordsOf(t, file).find(t, l)
		want := lookbook.Reduce(rendered(t, file, n), nil)
		for name, m := range map[string]image.Image{"pdftocairo": byCairo(t, file, n), "mutool": byMutool(t, file, n)} {
			d, err := lookbook.Compare(want, lookbook.Reduce(m, nil))
			must(t, err)
			t.Logf("%s by %s: %+v", l.name, name, d)
			if !d.Same() {
				t.Errorf("%s by %s: similarity %.2f at %v, color %.1f at %v", l.name, name, d.Similarity, d.Dissimilar, d.Color, d.Discolored)
			}
		}
	}
}

func byCairo(t *testing.T, file string, page int) image.Image {
	t.Helper()
	to, n := filepath.Join(t.TempDir(), "page"), strconv.Itoa(page)
	output(t, "pdftocairo", "-png", "-singlefile", "-r", strconv.Itoa(2*lookbook.Resolution), "-f", n, "-l", n, file, to)
	return halved(t, to+".png")
}

func byMutool(t *testing.T, file string, page int) image.Image {
	t.Helper()
	to := filepath.Join(t.TempDir(), "page.png")
	output(t, "mutool", "draw", "-q", "-r", strconv.Itoa(2*lookbook.Resolution), "-o", to, file, strconv.Itoa(page))
	return halved(t, to)
}

func halved(t *testing.T, file string) image.Image {
	t.Helper()
	m, err := lookbook.ReadPicture(file)
	must(t, err)
	return lookbook.Halve(m)
}
