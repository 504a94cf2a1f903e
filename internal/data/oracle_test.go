package data

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The writer of this package writes in one pass; encoding/json is what it must
// agree with.
func TestWriterAgreesWithEncodingJSON(t *testing.T) {
	d, err := document(small())
	if err != nil {
		t.Fatal(err)
	}
	d.Project = append(d.Project, Member[Entry]{"odd", Entry{Value: "<&> \"\\ \u2028 \x01 \n é \xff"}})
	got, err := write(d, setIn)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	if err := e.Encode(d); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(b.String(), string(got)); diff != "" {
		t.Error(diff)
	}
	flat, err := write(d, lined)
	if err != nil {
		t.Fatal(err)
	}
	if want := regexp.MustCompile(`(?m)^ +`).ReplaceAll(got, nil); !bytes.Equal(flat, want) {
		t.Error(cmp.Diff(string(want), string(flat)))
	}
	short, err := write(d, packed)
	if err != nil {
		t.Fatal(err)
	}
	// An object without another one or a list in it stands on one line.
	want := regexp.MustCompile(`(?m)^("(?:[^"\\]|\\.)*"): `).ReplaceAll(flat, []byte("$1:"))
	want = regexp.MustCompile(`\{\n(?:"(?:[^"\\]|\\.)*":[^{}\[\]\n]*\n)+\}`).ReplaceAllFunc(want, func(o []byte) []byte {
		return bytes.ReplaceAll(o, []byte("\n"), nil)
	})
	if !bytes.Equal(short, want) {
		t.Error(cmp.Diff(string(want), string(short)))
	}
}

// Files longer than a piece are whole.
func TestPiecesAreJoined(t *testing.T) {
	var long Keyed[string]
	table := newTable(all, "key", "value")
	var csv strings.Builder
	csv.WriteString("key,value\r\n")
	for i := range 150_000 {
		key := strconv.Itoa(i)
		long = append(long, Member[string]{key, key + " of many"})
		table.add(key, key+" of many")
		csv.WriteString(key + "," + key + " of many\r\n")
	}
	got, err := write(long, setIn)
	if err != nil || len(got) < 3*piece {
		t.Fatal(len(got), err)
	}
	var want bytes.Buffer
	e := json.NewEncoder(&want)
	e.SetIndent("", " ")
	if err := e.Encode(long); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want.Bytes()) {
		t.Error("JSON differs")
	}
	rows, err := table.bytes()
	if err != nil || len(rows) < 3*piece || string(rows) != csv.String() {
		t.Error("CSV differs", len(rows), err)
	}
}

// MarshalJSON writes the members in order.
func (k Keyed[T]) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range k {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := marshal(m.Key)
		if err != nil {
			return nil, err
		}
		value, err := marshal(m.Value)
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// marshal is json.Marshal without the escapes for web pages, so that "<" in a
// remark stays readable.
func marshal(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimRight(b.Bytes(), "\n"), nil
}
