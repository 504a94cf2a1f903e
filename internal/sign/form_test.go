package sign

import (
	"encoding/hex"
	"testing"
)

func TestDERIsFilledExactly(t *testing.T) {
	for _, c := range []struct {
		der  string
		well bool
	}{
		{"3006020101020102", true},
		{"3000", true},
		{"30080201010201020000", false}, // zeros taken in by a longer length
		{"3006020101020202", false},     // the inner one longer than the outer one
		{"3005020101020102", false},
		{"0500", true},
		{"05", false},
		{"", true},
	} {
		b, err := hex.DecodeString(c.der)
		if err != nil {
			t.Fatal(err)
		}
		if err := strictDER(b, 0); (err == nil) != c.well {
			t.Errorf("%s: %v", c.der, err)
		}
	}
}

func TestHexIsOfOneCase(t *testing.T) {
	for text, want := range map[string]bool{"<00ab>": true, "<00AB>": true, "<00aB>": false, "<00 ab>": false, "<00ab": false, "<>": true} {
		if got := plainHex([]byte(text)); got != want {
			t.Errorf("%s: %t", text, got)
		}
	}
}
