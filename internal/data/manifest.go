package data

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
)

// ManifestSchema stands first in every manifest.
const ManifestSchema = "asleft-manifest/1"

// Names of the files of a package, besides the workbooks.
const (
	DataName     = "data.json"
	ReadingsName = "readings.csv"
	ItemsName    = "items.csv"
	LimitsName   = "limits.csv"
	EntriesName  = "entries.csv"
	ManifestName = "manifest.json"

	PreviousDataName     = "previous-data.json"
	PreviousManifestName = "previous-manifest.json"
)

// Kind is what a file is to the package.
type Kind string

// Kinds.
const (
	Source  Kind = "source" // a workbook, as received
	Derived Kind = "data"   // made from the sources
	List    Kind = "list"   // the manifest

	Supplement Kind = "supplement" // a photo, certificate or manual
	Earlier    Kind = "previous"   // of the package that came before
)

// Part is a file of a package.
type Part struct {
	Name  string
	MIME  string
	Kind  Kind
	Bytes []byte
	// Original is the hash of the file that this one was made from, in hex
	// digits; empty where it is the original.
	Original string
}

// SHA256 is the hash of the bytes in hex digits.
func (p *Part) SHA256() string { return hash(p.Bytes) }

func hash(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// Listing is what a manifest says.
type Listing struct {
	Schema  string   `json:"schema"`
	Program string   `json:"program"`
	Rules   string   `json:"rules"`
	Files   []Listed `json:"files"`
}

// Listed is a file in a manifest.
type Listed struct {
	Name   string `json:"name"`
	Kind   Kind   `json:"kind"`
	SHA256 string `json:"sha256"`
	Size   int    `json:"size"`
	// Original is the hash of the picture that a photo was made from.
	Original string `json:"original,omitempty"`
}

// ErrManifest is a file that is no manifest.
var ErrManifest = errors.New("schema is not " + ManifestSchema)

var errSameName = errors.New("two files of one name")

// Manifest lists the parts, in their order, with hash and size.
func Manifest(in Input, parts []Part) ([]byte, error) {
	m := Listing{Schema: ManifestSchema, Program: in.Program, Rules: in.Rules.Hash}
	seen := map[string]bool{ManifestName: true}
	for i := range parts {
		p := &parts[i]
		if seen[p.Name] {
			return nil, fmt.Errorf("%s: %w", p.Name, errSameName)
		}
		seen[p.Name] = true
		m.Files = append(m.Files, Listed{p.Name, p.Kind, p.SHA256(), len(p.Bytes), p.Original})
	}
	return write(m, setIn) // it is printed
}

// fingerprintDigits are as many as a person compares by eye.
const fingerprintDigits = 8

// Fingerprint is what the pages print for a manifest: the first 8 hex digits of
// its SHA-256. It stands for every source and data file, since the manifest
// holds their hashes.
func Fingerprint(manifest []byte) string { return hash(manifest)[:fingerprintDigits] }

// ReadManifest reads a manifest, also one of a later version.
func ReadManifest(file []byte) (*Listing, error) {
	if len(file) > MaxSize {
		return nil, fmt.Errorf("manifest: %w", ErrTooLarge)
	}
	var m Listing
	if err := json.Unmarshal(file, &m); err != nil {
		return nil, fmt.Errorf("manifest: %w", err)
	}
	if m.Schema != ManifestSchema {
		return nil, fmt.Errorf("manifest: %w", ErrManifest)
	}
	return &m, nil
}
