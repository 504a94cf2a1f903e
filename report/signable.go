package report

import (
	"fmt"
	"strings"

	"asleft/internal/archive"
	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/templates"
)

// fieldPrefix begins the names of signature fields; the key of the role follows.
const fieldPrefix = "sign."

// signable is what a package says about itself, as far as a signer needs it.
type signable struct {
	words *templates.Words
	state assess.State // empty where the file does not tell
	roles []signRole
}

// signRole is a role with a field. What the file does not tell apart is empty.
type signRole struct {
	key, title, name, organization, meaning string
	text                                    string // tooltip of the field, which has all of it
}

// readSignable reads a package. Its data file is the best source; a package that
// has none inside, or one of another version of the program, still tells its
// state in the bookmark of its first page, and the roles in their fields.
func readSignable(file []byte) (*signable, error) {
	r, err := archive.Open(file)
	if err != nil {
		return nil, err
	}
	catalog, err := r.Catalog()
	if err != nil {
		return nil, err
	}
	fields, err := r.Fields()
	if err != nil {
		return nil, err
	}
	p := &signable{}
	for _, f := range fields {
		if key, ok := strings.CutPrefix(f.Name, fieldPrefix); ok {
			p.roles = append(p.roles, signRole{key: key, text: f.Text})
		}
	}
	tag, _ := catalog["Lang"].(archive.String)
	if p.words, err = language(archive.Text(tag)); err != nil {
		if p.words, err = language(""); err != nil {
			return nil, err
		}
	}
	if doc := dataInside(r); doc != nil {
		p.state = assess.State(doc.State)
		p.describe(doc)
		return p, nil
	}
	p.state = p.bookmarkState(r, catalog)
	return p, nil
}

// dataInside is the data file of the package, nil where there is none that can be
// read.
func dataInside(r *archive.Reader) *data.Document {
	files, err := r.Attachments()
	if err != nil {
		return nil
	}
	for _, f := range files {
		if f.Name != data.DataName {
			continue
		}
		doc, err := data.Decode(f.Bytes)
		if err != nil {
			return nil
		}
		return doc
	}
	return nil
}

// describe takes names and meanings of the roles from the data file.
func (p *signable) describe(doc *data.Document) {
	value := func(row data.Row, key string) string {
		e, _ := row.Get(key)
		return strings.Join(strings.Fields(e.Value), " ")
	}
	for i := range p.roles {
		r := &p.roles[i]
		for _, row := range doc.Roles {
			if value(row, "key") != r.key {
				continue
			}
			r.title, r.name = value(row, "title"), value(row, "name")
			r.organization, r.meaning = value(row, "organization"), value(row, "meaning")
		}
	}
}

// bookmarkState reads the state off the bookmark of the first page, which ends
// with it.
func (p *signable) bookmarkState(r *archive.Reader, catalog archive.Dict) assess.State {
	dict := func(o archive.Object) archive.Dict {
		v, err := r.Resolve(o)
		if err != nil {
			return nil
		}
		d, _ := v.(archive.Dict)
		return d
	}
	title, _ := dict(dict(catalog["Outlines"])["First"])["Title"].(archive.String)
	for _, s := range []assess.State{assess.Ready, assess.NotReady} {
		if strings.HasSuffix(archive.Text(title), ": "+p.words.Say("state."+string(s))) {
			return s
		}
	}
	return ""
}

// role finds a role by its key or title.
func (p *signable) role(asked string) (signRole, error) {
	var known []string
	for _, r := range p.roles {
		head, _, _ := strings.Cut(r.text, ", ")
		title := first(r.title, head)
		if r.key == asked || strings.EqualFold(title, asked) {
			return r, nil
		}
		known = append(known, fmt.Sprintf("%s (%s)", r.key, title))
	}
	if len(known) == 0 {
		return signRole{}, &SignError{Code: SignNoRoles}
	}
	return signRole{}, &SignError{Code: SignRole, Detail: strings.Join(known, ", ")}
}

// ready lets a package be signed that is ready. Any other is signed only as it
// is, and then there are words that say so.
func (p *signable) ready(asIs bool) (words string, err error) {
	switch {
	case p.state == assess.Ready:
		return "", nil
	case asIs && p.state == assess.NotReady:
		return p.words.Say("sign.asis", "state", p.words.Say("state."+string(p.state))), nil
	case asIs:
		return p.words.Say("sign.unknownstate"), nil
	case p.state == assess.NotReady:
		return "", &SignError{Code: SignNotReady}
	}
	return "", &SignError{Code: SignState}
}
