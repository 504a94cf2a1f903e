package workbook

import (
	"bytes"
	"strings"
	"testing"
)

func TestCloseEmpty(t *testing.T) {
	for in, want := range map[string]string{
		`<a><b c="d"></b></a>`:            `<a><b c="d"/></a>`,
		`<a></a>`:                         `<a/>`,
		`<ab><a></a></ab>`:                `<ab><a/></ab>`,
		`<a>text</a><b></b>`:              `<a>text</a><b/>`,
		`<a><b>1</b></a>`:                 `<a><b>1</b></a>`,
		`<x:a y="1 > 0"></x:a>`:           `<x:a y="1 > 0"/>`,
		`<t xml:space="preserve"> </t>`:   `<t xml:space="preserve"> </t>`,
		`<a/></b>`:                        `<a/></b>`,
		`no xml`:                          `no xml`,
		`<row r="1"><c r="A1" s="2"></c>`: `<row r="1"><c r="A1" s="2"/>`,
	} {
		if got := string(closeEmpty([]byte(in))); got != want {
			t.Errorf("%s: %s, want %s", in, got, want)
		}
	}
}

func TestWhatIsSoAnywayIsNotSaid(t *testing.T) {
	for in, want := range map[string]string{
		`<sheetProtection sheet="true" objects="false" formatCells="false" deleteColumns="true" sort="false"/>`: `<sheetProtection sheet="true" formatCells="false" sort="false"/>`,
		`<dataValidations count="1"><dataValidation errorStyle="stop" operator="between" type="date">`:          `<dataValidations count="1"><dataValidation type="date">`,
		`<dataValidation operator="equal" errorStyle="warning">`:                                                `<dataValidation operator="equal" errorStyle="warning">`,
		`<cfRule operator="between">`:                      `<cfRule operator="between">`,
		`<t> operator="between"</t>`:                       `<t> operator="between"</t>`,
		`<worksheet><dimension ref="A1"/><sheetViews/>`:    `<worksheet><sheetViews/>`,
		`<worksheet><dimension ref="A1:C4"/><sheetViews/>`: `<worksheet><dimension ref="A1:C4"/><sheetViews/>`,
		`<dataValidation`:                                  `<dataValidation`,
	} {
		if got := string(leaveDefaults([]byte(in))); got != want {
			t.Errorf("%s: %s, want %s", in, got, want)
		}
	}
}

func TestQuotesStandForThemselvesInText(t *testing.T) {
	for in, want := range map[string]string{
		`<a b="&#34;c&#39;">&#34;d&#39; &lt;&amp;</a>`: `<a b="&#34;c&#39;">"d' &lt;&amp;</a>`,
		`<a/>&#34;`:      `<a/>"`,
		`&#34;<a>`:       `&#34;<a>`,
		`<f>A1&gt;B</f>`: `<f>A1&gt;B</f>`,
	} {
		if got := string(plainQuotes([]byte(in))); got != want {
			t.Errorf("%s: %s, want %s", in, got, want)
		}
	}
}

// Cells with the same rule share it, and what was typed is not in the way of
// anything: Shorten of its own result changes nothing.
func TestFormIsShort(t *testing.T) {
	var b bytes.Buffer
	if err := WriteForm(&b, FormOptions{Cells: 2}); err != nil {
		t.Fatal(err)
	}
	again, err := Shorten(b.Bytes())
	if err != nil || !bytes.Equal(again, b.Bytes()) {
		t.Errorf("shortened twice it differs (%v)", err)
	}
	p, err := openPack(b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	for name := range p.parts {
		if !strings.HasPrefix(name, "xl/worksheets/sheet") {
			continue
		}
		part, err := p.read(name)
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Contains(part, []byte("></c>")) && bytes.Contains(part, []byte(`"></c>`)) {
			t.Errorf("%s: elements without contents are written out", name)
		}
		seen := map[string]bool{}
		for rest := string(part); ; {
			_, after, ok := strings.Cut(rest, "<dataValidation ")
			if !ok {
				break
			}
			rule, more, _ := strings.Cut(after, "</dataValidation>")
			before, cells, _ := strings.Cut(rule, ` sqref="`)
			_, tail, _ := strings.Cut(cells, `"`)
			if seen[before+tail] {
				t.Errorf("%s: the same rule twice: %.80s", name, rule)
			}
			seen[before+tail] = true
			rest = more
		}
	}
}
