package report_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"asleft/internal/archive"
	"asleft/internal/data"
	"asleft/report"
)

// books are the demonstration workbooks.
var books = []string{"demo.xlsx", "metric.xlsx"}

func load(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func open(t testing.TB, name string, o report.Options) *report.Job {
	t.Helper()
	b := load(t, name)
	job, err := report.Open(bytes.NewReader(b), int64(len(b)), name, o)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

func pdf(t testing.TB, job *report.Job) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := job.WritePDF(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func dataFile(t testing.TB, job *report.Job) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := job.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func attachments(t *testing.T, file []byte) map[string][]byte {
	t.Helper()
	r, err := archive.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	list, err := r.Attachments()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{}
	for _, f := range list {
		out[f.Name] = f.Bytes
	}
	return out
}

func TestPackageHoldsTheFilesItSays(t *testing.T) {
	for _, book := range books {
		job := open(t, book, report.Options{})
		inside := attachments(t, pdf(t, job))
		files, err := job.Files()
		if err != nil {
			t.Fatal(err)
		}
		if len(files) != len(inside) {
			t.Errorf("%s: %d files inside, %d expected", book, len(inside), len(files))
		}
		for _, f := range files {
			if !bytes.Equal(inside[f.Name], f.Bytes) {
				t.Errorf("%s: %s inside differs", book, f.Name)
			}
		}
		if !bytes.Equal(inside[book], load(t, book)) {
			t.Errorf("%s: the workbook is not inside as it was received", book)
		}
		if !bytes.Equal(inside[data.DataName], dataFile(t, job)) {
			t.Errorf("%s: the data file inside is not that of WriteJSON", book)
		}
	}
}

func TestArchiveOnlyPackageHoldsNoFiles(t *testing.T) {
	job := open(t, "metric.xlsx", report.Options{ArchiveOnly: true})
	if inside := attachments(t, pdf(t, job)); len(inside) != 0 {
		t.Errorf("%d files inside", len(inside))
	}
	files, err := job.Files()
	if err != nil {
		t.Fatal(err)
	}
	if len(files) != 7 {
		t.Errorf("%d files to lie beside it", len(files))
	}
}

func TestEveryPrintedValueIsInTheDataFile(t *testing.T) {
	for _, book := range books {
		job := open(t, book, report.Options{})
		values, err := data.Flatten(dataFile(t, job))
		if err != nil {
			t.Fatal(err)
		}
		r, err := archive.Open(pdf(t, job))
		if err != nil {
			t.Fatal(err)
		}
		printed, err := r.Values()
		if err != nil {
			t.Fatal(err)
		}
		// Fewer printed values than readings would mean that the pages are not
		// made of values at all.
		if len(printed) < 100 {
			t.Errorf("%s: only %d printed values", book, len(printed))
		}
		for _, p := range printed {
			if _, ok := values.Find(p.ID); !ok {
				t.Errorf("%s: %s is printed but not in the data file", book, p.ID)
			}
		}
	}
}

func TestFinishedPackageIsSound(t *testing.T) {
	for _, book := range books {
		for _, o := range []report.Options{{}, {Paper: "A4", Units: "mm"}, {ArchiveOnly: true}} {
			found, err := archive.Inspect(pdf(t, open(t, book, o)))
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range found.Violations {
				t.Errorf("%s %+v: %v", book, o, v)
			}
			if found.Pages == 0 {
				t.Errorf("%s %+v: no pages", book, o)
			}
		}
	}
}

func TestSameWorkbookSameBytes(t *testing.T) {
	first, second := pdf(t, open(t, "demo.xlsx", report.Options{})), pdf(t, open(t, "demo.xlsx", report.Options{}))
	if !bytes.Equal(first, second) {
		t.Error("two packages of one workbook differ")
	}
	if bytes.Equal(first, pdf(t, open(t, "demo.xlsx", report.Options{Paper: "A4"}))) {
		t.Error("paper makes no difference")
	}
}

// Several packages may be made at the same time from one job.
func TestJobMayBeUsedByMany(t *testing.T) {
	job := open(t, "metric.xlsx", report.Options{})
	want := pdf(t, job)
	done := make(chan bool)
	for range 4 {
		go func() {
			var b bytes.Buffer
			done <- job.WritePDF(&b) == nil && bytes.Equal(b.Bytes(), want)
		}()
	}
	for range 4 {
		if !<-done {
			t.Error("a package made beside others differs")
		}
	}
}

func TestDataFileFollowsTheSchema(t *testing.T) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(report.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("schema.json", doc); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, book := range books {
		file := dataFile(t, open(t, book, report.Options{}))
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(file))
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(v); err != nil {
			t.Errorf("%s: %v", book, err)
		}
		if _, err := data.Decode(file); err != nil {
			t.Errorf("%s: %v", book, err)
		}
	}
}

// checks are those of a cell.
const checks = 36

func TestRowsSayWhatTheDataSays(t *testing.T) {
	job := open(t, "demo.xlsx", report.Options{})
	values, err := data.Flatten(dataFile(t, job))
	if err != nil {
		t.Fatal(err)
	}
	rows := job.Rows()
	within := true
	for _, r := range rows {
		if v, _ := values.Find(data.VerdictID(r.Cell, r.Check)); v.Text != r.Verdict {
			t.Errorf("cell %d %s: row says %s, data %s", r.Cell, r.Check, r.Verdict, v.Text)
		}
		for _, text := range []string{r.Name, r.Read, r.Word, r.Limit} {
			if strings.HasPrefix(text, "[") {
				t.Errorf("cell %d %s: no words for %s", r.Cell, r.Check, text)
			}
		}
		within = within && r.Within
	}
	if len(rows) != 6*checks {
		t.Errorf("%d rows", len(rows))
	}
	if job.AllWithin() != within {
		t.Error("AllWithin says otherwise than the rows")
	}
}

func TestNotesHaveWords(t *testing.T) {
	for _, book := range books {
		job := open(t, book, report.Options{})
		for _, n := range slices.Concat(job.Reasons(), job.Notes(), job.Questions(), job.Due()) {
			if strings.ContainsAny(n.Text, "[]{}") || n.Text == "" {
				t.Errorf("%s: %s is said as %q", book, n.Key, n.Text)
			}
		}
	}
}

func TestWrongOptions(t *testing.T) {
	b := load(t, "metric.xlsx")
	for _, o := range []report.Options{{Paper: "A3"}, {Units: "ft"}, {Language: "xx"}} {
		_, err := report.Open(bytes.NewReader(b), int64(len(b)), "metric.xlsx", o)
		var wrong *report.OptionError
		if !errors.As(err, &wrong) {
			t.Errorf("%+v: got %v", o, err)
		}
	}
}

func TestNoWorkbook(t *testing.T) {
	for name, b := range map[string][]byte{"empty": nil, "text": []byte("not a workbook"), "cut": load(t, "metric.xlsx")[:5000]} {
		if _, err := report.Open(bytes.NewReader(b), int64(len(b)), "x.xlsx", report.Options{}); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
	// A size that is not the file's.
	b := load(t, "metric.xlsx")
	if _, err := report.Open(bytes.NewReader(b), int64(len(b))+1, "x.xlsx", report.Options{}); err == nil {
		t.Error("wrong size: accepted")
	}
}

func TestFiguresAreSVG(t *testing.T) {
	files, err := open(t, "demo.xlsx", report.Options{}).Figures()
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	for _, f := range files {
		if names[f.Name] || !strings.HasSuffix(f.Name, ".svg") || !bytes.Contains(f.Bytes, []byte("</svg>")) {
			t.Errorf("%s: twice, or no figure", f.Name)
		}
		names[f.Name] = true
	}
	for _, want := range []string{"cell-01-clearance.svg", "cell-06-tilt.svg", "cell-03-tipradius.svg"} {
		if !names[want] {
			t.Errorf("no %s", want)
		}
	}
}
