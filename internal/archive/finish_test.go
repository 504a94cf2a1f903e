package archive

import (
	"bytes"
	"testing"
)

func TestFinishGivesSameBytes(t *testing.T) {
	a, b := drawSample().finished(t), drawSample().finished(t)
	if !bytes.Equal(a, b) {
		t.Error("two runs differ")
	}
}
