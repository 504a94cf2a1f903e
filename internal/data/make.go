package data

// Set is everything that goes into or beside a package besides its pages.
type Set struct {
	Parts       []Part // sources, data file, tables, manifest last
	Fingerprint string
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
	for _, f := range []struct {
		name, mime string
		make       func() ([]byte, error)
	}{
		{DataName, "application/json", func() ([]byte, error) { return write(d) }},
		{ReadingsName, "text/csv", d.Readings},
		{ItemsName, "text/csv", d.Items},
		{LimitsName, "text/csv", d.LimitTable},
		{EntriesName, "text/csv", d.Entries},
	} {
		b, err := f.make()
		if err != nil {
			return nil, err
		}
		parts = append(parts, Part{Name: f.name, MIME: f.mime, Kind: Derived, Bytes: b})
	}
	m, err := Manifest(in, parts)
	if err != nil {
		return nil, err
	}
	parts = append(parts, Part{Name: ManifestName, MIME: "application/json", Kind: List, Bytes: m})
	return &Set{Parts: parts, Fingerprint: Fingerprint(m)}, nil
}
