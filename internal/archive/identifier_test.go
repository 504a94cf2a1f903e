package archive

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// earlier is a file with its identifiers as version 0.1.0 had them: under the key
// ID, with a tree that leads to them.
func earlier(t *testing.T, b []byte) []byte {
	t.Helper()
	r := mustOpen(t, b)
	changed, tree := map[int]string{}, map[string]Ref{}
	for n := range r.places {
		d, err := r.dict(Ref(n), "object")
		if err != nil || d["P"] == nil || d["S"] == nil {
			continue
		}
		list, ok := d["A"].(Array)
		if !ok {
			list = Array{d["A"]}
		}
		for _, a := range list {
			if a, ok := a.(Dict); ok && a["O"] == Name("UserProperties") {
				d["ID"] = a["P"].(Array)[0].(Dict)["V"]
				tree[string(d["ID"].(String))] = Ref(n)
			}
		}
		switch {
		case d["ID"] == nil:
			continue
		case ok:
			d["A"] = list[0]
		default:
			delete(d, "A")
		}
		changed[n] = source(d)
	}
	root, _ := r.Catalog()
	delete(root["MarkInfo"].(Dict), "UserProperties")
	changed[int(r.trailer["Root"].(Ref))] = source(root)
	var names Array
	for _, id := range slices.Sorted(maps.Keys(tree)) {
		names = append(names, String(id), tree[id])
	}
	top, _ := r.dict(root["StructTreeRoot"], "structure")
	top["IDTree"] = Dict{"Names": names}
	changed[int(root["StructTreeRoot"].(Ref))] = source(top)
	return revise(b, "/ID"+source(r.trailer["ID"]), changed)
}

func TestIdentifiersOfEarlierFiles(t *testing.T) {
	b := drawSample().finished(t)
	was := earlier(t, b)
	want, err := mustOpen(t, b).Values()
	if err != nil || len(want) == 0 {
		t.Fatal(err, len(want))
	}
	got, err := mustOpen(t, was).Values()
	if d := cmp.Diff(want, got); err != nil || d != "" {
		t.Errorf("%v (-property +key):\n%s", err, d)
	}
	if list := violations(t, was); len(list) > 0 {
		t.Error(list)
	}
}

// What stands in the place of an identifier and is none is refused.
func TestForeignProperties(t *testing.T) {
	b := drawSample().finished(t)
	way := []any{Name("StructTreeRoot"), Name("K"), Name("K"), 0}
	property := func(name, value Object) Dict {
		return Dict{"O": Name("UserProperties"), "P": Array{Dict{"N": name, "V": value}}}
	}
	good := property(String(idProperty), String("a.b"))
	for _, c := range []struct {
		name   string
		change func(d Dict)
		want   string
	}{
		{"as we write it", func(d Dict) { d["A"] = good }, ""},
		{"beside another owner", func(d Dict) { d["A"] = Array{Dict{"O": Name("Table")}, good} }, ""},
		{"beside the key", func(d Dict) { d["A"], d["ID"] = good, String("a") }, "user properties"},
		{"twice", func(d Dict) { d["A"] = Array{good, good} }, "twice"},
		{"too many", func(d Dict) {
			d["A"] = Dict{"O": Name("UserProperties"), "P": slices.Repeat(good["P"].(Array), maxSeveral+1)}
		}, "9 user properties"},
		{"with a space", func(d Dict) { d["A"] = property(String(idProperty), String("a b")) }, "user property"},
		{"of another name", func(d Dict) { d["A"] = property(String("color"), String("a.b")) }, `user property "color"`},
		{"a number", func(d Dict) { d["A"] = property(String(idProperty), int64(1)) }, "user property"},
		{"no list", func(d Dict) { d["A"] = Dict{"O": Name("UserProperties"), "P": int64(1)} }, "user properties"},
		{"owner that is no name", func(d Dict) { d["A"] = Dict{"O": Array{int64(1)}} }, "attributes of"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := mustOpen(t, forge(t, b, c.change, way...)).Structure()
			switch {
			case c.want == "" && err != nil, c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
				t.Errorf("%v, want %q", err, c.want)
			}
		})
	}
}
