package data

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// Values is a data file laid flat: what stands at each path.
type Values map[string]Value

// Value is what stands at a path. Text is a string's content, a number's
// digits, "true" or "false"; for an object it is its member "value".
type Value struct {
	Text string
	Unit string // the object's member "unit"
	Base string // the object's member "base", digits
}

// Flatten reads a data file of any version of the schema into its values by
// path, so that a printed value can be looked up. It checks nothing but that
// the file is JSON of a bearable size.
func Flatten(file []byte) (Values, error) {
	if len(file) > MaxSize {
		return nil, fmt.Errorf("data file: %w", ErrTooLarge)
	}
	d := json.NewDecoder(bytes.NewReader(file))
	d.UseNumber()
	var root any
	if err := d.Decode(&root); err != nil {
		return nil, fmt.Errorf("data file: %w", err)
	}
	v := Values{}
	v.add("", root)
	return v, nil
}

// Find returns the value at the path of a printed value. The part from "~" on
// (see [Again]) is left aside.
func (v Values) Find(path string) (Value, bool) {
	path, _, _ = strings.Cut(path, "~")
	value, ok := v[path]
	return value, ok
}

// add goes down the tree. Its depth is bounded by the JSON decoder.
func (v Values) add(path string, node any) {
	switch node := node.(type) {
	case map[string]any:
		if text, ok := node["value"].(string); ok {
			unit, _ := node["unit"].(string)
			base, _ := node["base"].(json.Number)
			v[path] = Value{Text: text, Unit: unit, Base: base.String()}
		}
		for key, below := range node {
			v.add(under(path, key), below)
		}
	case []any:
		for i, below := range node {
			v.add(under(path, strconv.Itoa(i)), below)
		}
	case string:
		v[path] = Value{Text: node}
	case json.Number:
		v[path] = Value{Text: node.String()}
	case bool:
		v[path] = Value{Text: strconv.FormatBool(node)}
	}
}

func under(path, key string) string {
	if path == "" {
		return key
	}
	return join(path, key)
}
