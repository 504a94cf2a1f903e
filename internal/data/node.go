package data

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
)

// node is a piece of a data file of any version: an object with its members in
// order, a list, or a single value as text.
type node struct {
	keys  []string // of an object
	below []node   // of an object or list
	text  string   // of a single value
	kind  byte     // '{', '[', or 0
}

// maxDepth is far deeper than any data file nests.
const maxDepth = 64

var (
	errDeep = errors.New("nested too deeply")
	errMore = errors.New("more than one value")
)

// parse reads a data file of any version.
func parse(file []byte) (node, error) {
	if len(file) > MaxSize {
		return node{}, fmt.Errorf("data file: %w", ErrTooLarge)
	}
	d := json.NewDecoder(bytes.NewReader(file))
	d.UseNumber()
	n, err := parseNode(d, 0)
	if err == nil {
		if _, end := d.Token(); !errors.Is(end, io.EOF) {
			err = errMore
		}
	}
	if err != nil {
		return node{}, fmt.Errorf("data file: %w", err)
	}
	return n, nil
}

func parseNode(d *json.Decoder, depth int) (node, error) {
	if depth > maxDepth {
		return node{}, errDeep
	}
	t, err := d.Token()
	if err != nil {
		return node{}, err
	}
	switch t := t.(type) {
	case json.Delim:
		return parseBelow(d, byte(t), depth)
	case string:
		return node{text: t}, nil
	case json.Number:
		return node{text: t.String()}, nil
	case bool:
		return node{text: strconv.FormatBool(t)}, nil
	}
	return node{}, nil // null
}

func parseBelow(d *json.Decoder, open byte, depth int) (node, error) {
	n := node{kind: open}
	seen := map[string]bool{}
	for d.More() {
		if open == '{' {
			t, err := d.Token()
			if err != nil {
				return n, err
			}
			key, _ := t.(string)
			if seen[key] {
				return n, fmt.Errorf("%s: %w", key, errTwice)
			}
			seen[key] = true
			n.keys = append(n.keys, key)
		}
		below, err := parseNode(d, depth+1)
		if err != nil {
			return n, err
		}
		n.below = append(n.below, below)
	}
	_, err := d.Token() // the end of it
	return n, err
}

// get is the member of an object; nil where there is none.
func (n *node) get(key string) *node {
	if n == nil {
		return nil
	}
	for i, k := range n.keys {
		if k == key {
			return &n.below[i]
		}
	}
	return nil
}

// member is the text of a member that is a single value, else nothing.
func (n *node) member(key string) string {
	if m := n.get(key); m != nil && m.kind == 0 {
		return m.text
	}
	return ""
}

// leaf is an object that stands for one value, as entries and amounts do.
func (n *node) leaf() (Printed, bool) {
	switch {
	case n == nil:
		return Printed{}, false
	case n.kind == 0:
		return Printed{Value: n.text}, true
	case n.kind == '{' && n.get("value") != nil && n.get("value").kind == 0:
		return Printed{n.member("value"), n.member("unit"), n.member("typed"), n.member("exact"), n.member("index")}, true
	}
	return Printed{}, false
}
