package data

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
)

//go:embed asleft-1.schema.json
var schema []byte

// Schema returns a copy of the JSON Schema of the data file.
func Schema() []byte { return bytes.Clone(schema) }

// MaxSize is the largest data file that is read: some hundred cells take a
// few megabytes.
const MaxSize = 64 << 20

// Reasons why a data file is refused.
var (
	ErrTooLarge = errors.New("file is too large")
	ErrSchema   = errors.New("schema is not " + SchemaName)
	ErrNotOurs  = errors.New("not written the way this program writes")
)

// Decode reads a data file of this version. It takes only what [Encode] could
// have written, byte for byte: no unknown member, no other order, spacing or
// spelling of numbers. A file from a later version of the program, which may
// have more members, is refused here and can still be read with [Read] and
// [Flatten].
func Decode(file []byte) (*Document, error) {
	if len(file) > MaxSize {
		return nil, fmt.Errorf("data file: %w", ErrTooLarge)
	}
	d := json.NewDecoder(bytes.NewReader(file))
	d.DisallowUnknownFields()
	var doc Document
	if err := d.Decode(&doc); err != nil {
		return nil, fmt.Errorf("data file: %w", err)
	}
	if doc.Schema != SchemaName {
		return nil, fmt.Errorf("data file: %w", ErrSchema)
	}
	for _, f := range []form{packed, lined} { // lined: before version 0.2.0
		again, err := write(&doc, f)
		if err != nil {
			return nil, err
		}
		if bytes.Equal(again, file) {
			return &doc, nil
		}
	}
	return nil, fmt.Errorf("data file: %w", ErrNotOurs)
}

// Read reads a data file of any version of the schema: members that this version
// does not know are left out. It trusts the file to be what it says.
func Read(file []byte) (*Document, error) {
	if len(file) > MaxSize {
		return nil, fmt.Errorf("data file: %w", ErrTooLarge)
	}
	var doc Document
	if err := json.Unmarshal(file, &doc); err != nil {
		return nil, fmt.Errorf("data file: %w", err)
	}
	if doc.Schema != SchemaName {
		return nil, fmt.Errorf("data file: %w", ErrSchema)
	}
	return &doc, nil
}
