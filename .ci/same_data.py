"""Compares data files while leaving aside where things stand: same_data.py FILE FILE…

What differs between two workbooks with the same readings is their own name,
hash and size, the addresses of cells, and what extra sheets they have.
"""
import json
import sys

PLACES = {"at", "file", "files"}


def without_places(node):
    if isinstance(node, dict):
        return {k: without_places(v) for k, v in node.items() if k not in PLACES}
    if isinstance(node, list):
        return [without_places(v) for v in node]
    return node


def difference(a, b, path=""):
    """The path of the first difference, or None."""
    if type(a) is not type(b):
        return path
    if isinstance(a, dict):
        for key in list(a) + [k for k in b if k not in a]:
            if key not in a or key not in b:
                return f"{path}.{key}"
            found = difference(a[key], b[key], f"{path}.{key}")
            if found:
                return found
        return None
    if isinstance(a, list):
        if len(a) != len(b):
            return f"{path}: {len(a)} and {len(b)} items"
        for i, (x, y) in enumerate(zip(a, b)):
            found = difference(x, y, f"{path}.{i}")
            if found:
                return found
        return None
    return None if a == b else f"{path}: {a!r} and {b!r}"


def main():
    first, *others = sys.argv[1:]
    if not others:
        sys.exit("nothing to compare")
    want = without_places(json.load(open(first, encoding="utf-8")))
    if not want["cells"]:
        sys.exit(f"{first}: no cells")
    for name in others:
        got = without_places(json.load(open(name, encoding="utf-8")))
        found = difference(want, got)
        if found:
            sys.exit(f"{name} differs from {first} at {found}")
    print(f"{len(others) + 1} data files say the same")


main()
