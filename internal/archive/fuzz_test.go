package archive

import "testing"

// smallFile is a whole file with little in it.
func smallFile(t testing.TB) []byte {
	s := newSample()
	s.addPage()
	s.text(RoleH1, "sans", 9, 72, 72, "a")
	return s.finished(t)
}

func FuzzOpen(f *testing.F) {
	small := smallFile(f)
	f.Add(small)
	f.Add(revise(small, "", map[int]string{2: "<</Title(changed)>>"}))
	f.Add(tiny(""))
	f.Fuzz(func(t *testing.T, b []byte) { readAll(b) })
}

func FuzzLexer(f *testing.F) {
	for _, s := range []string{
		"<</A[1 -2.5 (x\\(y\\)\\101) <0aF>]/B#20c 3 0 R>>", "q BT /F1 9 Tf (\x00a) Tj ET Q", "/P <</MCID 0>> BDC EMC",
		"/Artifact <</Type /Layout>> BDC 1 0 0 1 2 3 cm 0 0 m S EMC", "% comment\n[", "((", "<</A", "\\",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		l := lexer{src: b}
		for last := -1; ; {
			tok, err := l.next()
			if err != nil || tok.kind == tokenEnd {
				break
			}
			if tok.start <= last || tok.end <= tok.start || tok.end > len(b) {
				t.Fatalf("token %d–%d after %d of %d bytes", tok.start, tok.end, last, len(b))
			}
			last = tok.end - 1
		}
		_, _ = newParser(b, 0).object()
		scan(b, &pageScan{show: func(int, Name, []byte) {}})
		_, _ = readToUnicode(b)
	})
}

// A string is the same after writing and reading.
func FuzzStrings(f *testing.F) {
	for _, s := range []string{"", "plain", "(a\\b)", "é\r\n\x00", "Ж", "\U0001F600"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		o, err := newParser(appendLiteral(nil, s), 0).object()
		if err != nil && len(s) <= maxStringLength || err == nil && o != String(s) {
			t.Errorf("literal %q reads %q, %v", s, o, err)
		}
		if !printable(s) || len(s) > maxStringLength/4 {
			return
		}
		o, err = newParser(appendTextString(nil, s), 0).object()
		if err != nil || text(o) != s {
			t.Errorf("text %q reads %q, %v", s, text(o), err)
		}
	})
}
