package data

import (
	"errors"
	"fmt"
)

// errNotListed: the manifest is not that of the data file.
var errNotListed = errors.New("the manifest beside it lists another data file")

// ReadPrevious takes what the data file of an earlier package says of itself. The
// manifest of that package gives its fingerprint; it may be missing, but must
// belong to the data file. Both may be of any version of the schema.
func ReadPrevious(file, manifest []byte) (*Previous, error) {
	d, err := parse(file)
	if err != nil {
		return nil, err
	}
	if d.member("schema") != SchemaName {
		return nil, fmt.Errorf("data file: %w", ErrSchema)
	}
	typed := func(key string) string { return d.get("project").get(key).member("value") }
	p := &Previous{SHA256: hash(file), Document: typed("document"), Revision: typed("revision"),
		Issued: d.member("issued"), State: d.member("state")}
	if manifest == nil {
		return p, nil
	}
	m, err := parse(manifest)
	if err != nil {
		return nil, err
	}
	list := m.get("files")
	for i := 0; isList(list) && i < len(list.below); i++ {
		if f := &list.below[i]; f.member("name") == DataName && f.member("sha256") == p.SHA256 {
			p.Fingerprint = Fingerprint(manifest)
			return p, nil
		}
	}
	return nil, errNotListed
}
