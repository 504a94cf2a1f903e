package archive

import (
	"testing"
)

// packed is the packed form of content: of the page alone, and what pages share, the
// head parted from the rest by a bar.
func packed(t *testing.T, content string) (own, shared string) {
	t.Helper()
	var s pageScan
	s.record = &recording{}
	scan([]byte(content), &s)
	if len(s.faults) > 0 {
		t.Fatalf("%q: %v", content, s.faults)
	}
	// Characters are half as wide as high.
	wide := &rawFont{initial: 500}
	p := packer{fonts: map[Name]string{"Flong": "/F0", "Fother": "/F1"}, faces: map[Name]*rawFont{"Fother": wide}}
	a, b := p.pack([]byte(content), s.record)
	return string(a), string(b[0]) + "|" + string(b[1])
}

// TestPackPartsWhatPagesShare: heads and feet go into a stream of their own, with
// all the settings that they depend on; the page goes on as if they were not there.
func TestPackPartsWhatPagesShare(t *testing.T) {
	const page = "1 0 0 rg /Flong 8 Tf /P <</MCID 0>> BDC BT 1 2 Td (\x00a) Tj ET EMC "
	for _, c := range []struct{ name, content, own, shared string }{
		{"a foot between texts", page + "/Artifact <</Type /Pagination /Subtype /Footer>> BDC 0 1 0 rg 5 5 9 1 re f BT 7 7 Td (\x00c) Tj ET EMC " +
			"/P <</MCID 1>> BDC BT 1 1 Td 1 0 0 rg (\x00b) Tj ET EMC",
			"BT\n/P<</MCID 0>>BDC\n/F0 8 Tf\n1 0 0 rg\n1 2 Td(a)Tj\nEMC\n/P<</MCID 1>>BDC\n0 -1 Td(b)Tj\nEMC\nET\n",
			"|/Artifact<</Type/Pagination/Subtype/Footer>>BDC\n0 1 0 rg\n5 5 9 1 re\nf\nBT\n/F0 8 Tf\n7 7 Td(c)Tj\nET\nEMC\n"},
		{"its color holds behind it", page + "/Artifact <</Type /Pagination /Subtype /Header>> BDC 0 1 0 rg BT 7 7 Td (\x00c) Tj ET EMC " +
			"/P <</MCID 1>> BDC BT 1 1 Td (\x00b) Tj ET EMC",
			"BT\n/P<</MCID 0>>BDC\n/F0 8 Tf\n1 0 0 rg\n1 2 Td(a)Tj\nEMC\n/P<</MCID 1>>BDC\n0 1 0 rg\n0 -1 Td(b)Tj\nEMC\nET\n",
			"BT\n/Artifact<</Type/Pagination/Subtype/Header>>BDC\n/F0 8 Tf\n0 1 0 rg\n7 7 Td(c)Tj\nEMC\nET\n|"},
		{"a foot does not go on with what its head has set", "1 0 0 rg /Artifact <</Type /Pagination /Subtype /Header>> BDC 0 0 9 1 re f EMC " +
			"/Artifact <</Type /Pagination /Subtype /Footer>> BDC 5 5 9 1 re f EMC /Artifact <</Type /Pagination /Subtype /Watermark>> BDC 6 6 9 1 re f EMC", "",
			"/Artifact<</Type/Pagination/Subtype/Header>>BDC\n1 0 0 rg\n0 0 9 1 re\nf\nEMC\n|" +
				"/Artifact<</Type/Pagination/Subtype/Footer>>BDC\n1 0 0 rg\n5 5 9 1 re\nf\nEMC\n/Artifact<</Type/Pagination/Subtype/Watermark>>BDC\n6 6 9 1 re\nf\nEMC\n"},
		{"a number of the page stays", "1 0 0 rg /Flong 8 Tf /Artifact <</Type /Pagination>> BDC BT 1 2 Td (\x00a) Tj ET EMC",
			"BT\n/Artifact<</Type/Pagination>>BDC\n/F0 8 Tf\n1 0 0 rg\n1 2 Td(a)Tj\nEMC\nET\n", "|"},
		{"what it does not follow stays whole", "/Flong 8 Tf /Artifact <</Type /Pagination /Subtype /Footer>> BDC BT 1 0 0 1 3 4 Tm (\x00a) Tj ET EMC",
			"/F0 8 Tf\n/Artifact<</Type/Pagination/Subtype/Footer>>BDC\nBT\n1 0 0 1 3 4 Tm\n(a)Tj\nET\nEMC\n", "|"},
	} {
		if own, shared := packed(t, c.content); own != c.own || shared != c.shared {
			t.Errorf("%s:\n got %q and %q\nwant %q and %q", c.name, own, shared, c.own, c.shared)
		}
	}
}

func TestPack(t *testing.T) {
	for _, c := range []struct{ name, content, want string }{
		{"settings that nothing uses are left out",
			"0 J\n0.57 w\nBT /Flong 25.00 Tf ET\n0.106 0.118 0.133 rg\n/TD <</MCID 0>> BDC\nBT /Flong 8.50 Tf ET\nBT 64.00 700.50 Td (\x00a) Tj ET\nEMC\n",
			"BT\n/P<</MCID 0>>BDC\n/F0 8.5 Tf\n.106 .118 .133 rg\n64 700.5 Td(a)Tj\nEMC\nET\n"},
		{"lines of text are placed from the one before, over marks",
			"1 0 0 rg /Flong 8 Tf /TD <</MCID 0>> BDC BT 10 20.5 Td (\x00a) Tj ET EMC /TD <</MCID 1>> BDC BT 10.25 8 Td (\x00b) Tj ET EMC",
			"BT\n/P<</MCID 0>>BDC\n/F0 8 Tf\n1 0 0 rg\n10 20.5 Td(a)Tj\nEMC\n/P<</MCID 1>>BDC\n.3 -12.5 Td(b)Tj\nEMC\nET\n"},
		{"places are tenths of a point, but for changed coordinates",
			"1 0 0 rg /Flong 8 Tf /TH <</MCID 0>> BDC BT 10.04 -0.05 Td (\x00a) Tj ET BT 10.08 9.96 Td (\x00b) Tj ET q 1 0 0 1 5 6 cm BT 1.23 4.56 Td (\x00c) Tj ET Q EMC",
			"/P<</MCID 0>>BDC\nBT\n/F0 8 Tf\n1 0 0 rg\n10 -.1 Td(a)Tj\n.1 10.1 Td(b)Tj\nET\nq\n1 0 0 1 5 6 cm\nBT\n1.23 4.56 Td(c)Tj\nET\nQ\nEMC\n"},
		{"a path ends the text object, and the mark around it stays whole",
			"1 0 0 rg 0 0 1 RG /Flong 8 Tf /P <</MCID 0>> BDC BT 1 2 Td (\x00a) Tj ET EMC /Figure <</MCID 1>> BDC BT 3 4 Td (\x00b) Tj ET q 2 w 0 j 1 1 m 5 5 l S Q EMC",
			"BT\n/P<</MCID 0>>BDC\n/F0 8 Tf\n1 0 0 rg\n1 2 Td(a)Tj\nEMC\nET\n/Figure<</MCID 1>>BDC\nBT\n3 4 Td(b)Tj\nET\n0 0 1 RG\n2 w\n1 1 m\n5 5 l\nS\nEMC\n"},
		{"text goes on where the last ended",
			"1 0 0 rg /Fother 8 Tf /P <</MCID 0>> BDC BT 10 20 Td (\x00a\x00b) Tj ET BT 18.03 20.02 Td (\x00\\(\x00d) Tj ET EMC " +
				"/P <</MCID 1>> BDC BT 25.97 20 Td (\x00e) Tj ET 0 1 0 rg BT 30 20 Td (\x00f) Tj ET BT 34.1 20 Td (\x00g) Tj ET BT 10 8 Td (\x00h) Tj ET EMC",
			"BT\n/P<</MCID 0>>BDC\n/F1 8 Tf\n1 0 0 rg\n10 20 Td(ab\\(d)Tj\nEMC\n/P<</MCID 1>>BDC\n(e)Tj\n0 1 0 rg\n(f)Tj\n24.1 0 Td(g)Tj\n-24.1 -12 Td(h)Tj\nEMC\nET\n"},
		{"not in another text object, nor on another line",
			"1 0 0 rg /Fother 8 Tf /P <</MCID 0>> BDC BT 10 20 Td (\x00a) Tj ET EMC /Figure <</MCID 1>> BDC 1 1 2 2 re f EMC " +
				"/P <</MCID 2>> BDC BT 14 20 Td (\x00b) Tj ET BT 18 21 Td (\x00c) Tj ET EMC",
			"BT\n/P<</MCID 0>>BDC\n/F1 8 Tf\n1 0 0 rg\n10 20 Td(a)Tj\nEMC\nET\n/Figure<</MCID 1>>BDC\n1 1 2 2 re\nf\nEMC\n" +
				"BT\n/P<</MCID 2>>BDC\n14 20 Td(b)Tj\n4 1 Td(c)Tj\nEMC\nET\n"},
		{"what q kept comes back",
			"1 0 0 rg /Artifact <</Type /Layout>> BDC q 0 1 0 rg 0 0 1 1 re f Q 0 0 2 2 re f EMC",
			"/Artifact<</Type/Layout>>BDC\n0 1 0 rg\n0 0 1 1 re\nf\n1 0 0 rg\n0 0 2 2 re\nf\nEMC\n"},
		{"q stays around a change of coordinates, and takes back what was set in it",
			"1 0 0 rg /Artifact BMC q 1 0 0 1 5 6 cm 0 1 0 rg 0 0 1 1 re f Q 0 0 2 2 re f q 1 0 0 1 7 8 cm 0 0 1 1 re f Q EMC",
			"/Artifact BMC\nq\n1 0 0 1 5 6 cm\n0 1 0 rg\n0 0 1 1 re\nf\nQ\n1 0 0 rg\n0 0 2 2 re\nf\nq\n1 0 0 1 7 8 cm\n0 0 1 1 re\nf\nQ\nEMC\n"},
		{"outlined text has the settings of strokes",
			"1 0 0 rg 0 0 1 RG /Flong 8 Tf /Artifact BMC q 1 Tr 0.5 w BT 1 2 Td (\x00a) Tj ET Q BT 1 9 Td (\x00b) Tj ET EMC",
			"BT\n/Artifact BMC\n/F0 8 Tf\n1 0 0 rg\n0 0 1 RG\n.5 w\n1 Tr\n1 2 Td(a)Tj\n0 Tr\n0 7 Td(b)Tj\nEMC\nET\n"},
		{"what it does not follow stays as it was",
			"/Flong 8.00 Tf /P <</MCID 0>> BDC BT 1 0 0 1 3 4 Tm 0.50 Tc (\x00a) Tj (\x00b) Tj ET EMC",
			"/F0 8 Tf\n/P<</MCID 0>>BDC\nBT\n1 0 0 1 3 4 Tm\n.5 Tc\n(a)Tj\n(b)Tj\nET\nEMC\n"},
		{"codes outside of Latin-1 are long, and escaped where they must be",
			"/Flong 8 Tf /P <</MCID 0>> BDC BT 1 2 Td 1 0 0 rg <00280022201300E9> Tj ET EMC",
			"BT\n/P<</MCID 0>>BDC\n/F0 8 Tf\n1 0 0 rg\n1 2 Td(\\(\"\x00\x20\x13\xe9)Tj\nEMC\nET\n"},
		{"a color that the page never set cannot be set again",
			"/Artifact BMC q 0 1 0 rg 0 0 1 1 re f Q 0 0 2 2 re f EMC",
			"/Artifact BMC\nq\n0 1 0 rg\n0 0 1 1 re\nf\nQ\n0 0 2 2 re\nf\nEMC\n"},
		{"nor a position behind a text",
			"1 0 0 rg /Flong 8 Tf /P <</MCID 0>> BDC BT 1 2 Td (\x00a) Tj (\x00b) Tj ET EMC",
			"1 0 0 rg\n/F0 8 Tf\n/P<</MCID 0>>BDC\nBT\n1 2 Td\n(a)Tj\n(b)Tj\nET\nEMC\n"},
	} {
		if got, _ := packed(t, c.content); got != c.want {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
}

func TestShortNumbers(t *testing.T) {
	for in, want := range map[string]string{"64.00": "64", "0.50": ".5", "-0.25": "-.25", "0.00": "0", "-0.00": "0", "100": "100",
		"100.0": "100", "-12.340": "-12.34", ".5": ".5", "-.5": "-.5", "0": "0"} {
		if got := string(shortNumber([]byte(in))); got != want {
			t.Errorf("%s: %s, want %s", in, got, want)
		}
	}
	for in, want := range map[string]int64{"64.00": 6400, "-.5": -50, "0.07": 7, "-12": -1200} {
		if got, ok := hundredths([]byte(in)); !ok || got != want {
			t.Errorf("%s: %d", in, got)
		}
	}
	for _, in := range []string{"0.001", "1e5", "--1", "1.2.3", "99999999999999999999"} {
		if _, ok := hundredths([]byte(in)); ok {
			t.Errorf("%s is taken", in)
		}
	}
	for n, want := range map[int64]string{0: "0", 5: ".05", -50: "-.5", 1234: "12.34", -1200: "-12", 110: "1.1"} {
		if got := string(appendHundredths(nil, n)); got != want {
			t.Errorf("%d: %s, want %s", n, got, want)
		}
	}
}

// A file says the same however tightly it is packed, and is no longer the tighter it is.
func TestEffort(t *testing.T) {
	last := 0
	for _, e := range []Effort{Tight, Balanced, Quick} {
		s := drawSample()
		s.doc.Effort = e
		b := s.finished(t)
		if len(b) < last {
			t.Errorf("effort %d: %d bytes, tighter %d", e, len(b), last)
		}
		last = len(b)
		report, err := Inspect(b)
		if err != nil || len(report.Violations) > 0 {
			t.Errorf("effort %d: %v, %v", e, report.Violations, err)
		}
	}
}
