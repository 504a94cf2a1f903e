package data

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
)

// Keyed is a JSON object whose members are data rather than fields, in the
// order of the slice. A Go map would lose that order.
type Keyed[T any] []Member[T]

// Member is one key of an object and what stands under it.
type Member[T any] struct {
	Key   string
	Value T
}

var (
	errTwice = errors.New("key stands twice")
	errNoKey = errors.New("empty key")
)

// Get returns the value of the key.
func (k Keyed[T]) Get(key string) (T, bool) {
	for _, m := range k {
		if m.Key == key {
			return m.Value, true
		}
	}
	var none T
	return none, false
}

// MarshalJSON writes the members in order. A key that stands twice, which
// would make a path mean two things, is an error.
func (k Keyed[T]) MarshalJSON() ([]byte, error) {
	seen := make(map[string]bool, len(k))
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range k {
		if err := checkKey(m.Key, seen); err != nil {
			return nil, err
		}
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

// UnmarshalJSON reads the members in the order in which they stand.
func (k *Keyed[T]) UnmarshalJSON(text []byte) error {
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if open, err := d.Token(); err != nil || open != json.Delim('{') {
		return errors.Join(errors.New("not an object"), err)
	}
	*k = nil
	seen := map[string]bool{}
	for d.More() {
		t, err := d.Token()
		if err != nil {
			return err
		}
		key, _ := t.(string)
		if err := checkKey(key, seen); err != nil {
			return err
		}
		var m = Member[T]{Key: key}
		if err := d.Decode(&m.Value); err != nil {
			return fmt.Errorf("%s: %w", key, err)
		}
		*k = append(*k, m)
	}
	return nil
}

func checkKey(key string, seen map[string]bool) error {
	switch {
	case key == "":
		return errNoKey
	case seen[key]:
		return fmt.Errorf("%s: %w", key, errTwice)
	}
	seen[key] = true
	return nil
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
