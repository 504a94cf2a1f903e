package data

import "sync"

// Set is everything that goes into or beside a package besides its pages.
type Set struct {
	Parts       []Part // sources, data file, tables, manifest last
	Fingerprint string
	doc         *Document
}

// derived is a file that is made from the document alone, as the others are
// meanwhile.
type derived struct {
	name, mime string
	make       func() ([]byte, error)
	bytes      []byte
	err        error
}

// Make makes the set of a package from its workbooks as received, in the order
// of the record's files, and whatever else was handed over: the data file, the
// tables, the manifest over all.
func Make(in Input, sources []Part) (*Set, error) {
	d, err := document(in)
	if err != nil {
		return nil, err
	}
	parts := append([]Part(nil), sources...)
	files := []derived{
		{name: DataName, mime: "application/json", make: func() ([]byte, error) { return write(d, packed) }},
		{name: ReadingsName, mime: "text/csv", make: d.Readings},
		{name: ItemsName, mime: "text/csv", make: d.Items},
		{name: LimitsName, mime: "text/csv", make: d.LimitTable},
		{name: EntriesName, mime: "text/csv", make: d.Entries},
	}
	var group sync.WaitGroup
	for i := range files {
		f := &files[i]
		group.Go(func() { f.bytes, f.err = f.make() })
	}
	group.Wait()
	for _, f := range files {
		if f.err != nil {
			return nil, f.err
		}
		parts = append(parts, Part{Name: f.name, MIME: f.mime, Kind: Derived, Bytes: f.bytes})
	}
	m, err := Manifest(in, parts)
	if err != nil {
		return nil, err
	}
	parts = append(parts, Part{Name: ManifestName, MIME: "application/json", Kind: List, Bytes: m})
	return &Set{Parts: parts, Fingerprint: Fingerprint(m), doc: d}, nil
}
