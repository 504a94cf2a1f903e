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

// UnmarshalJSON reads the members in the order in which they stand.
func (k *Keyed[T]) UnmarshalJSON(text []byte) error {
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if open, err := d.Token(); err != nil || open != json.Delim('{') {
		return errors.Join(errNoObject, err)
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
