"""Makes many invented workbooks out of one: python many.py BOOK.xlsx FOLDER N.

Every copy is another tower: its tag, cell names and document number are numbered.
"""
import os
import sys
import zipfile

book, folder, n = sys.argv[1], sys.argv[2], int(sys.argv[3])
with zipfile.ZipFile(book) as z:
    parts = [(i.filename, z.read(i)) for i in z.infolist()]
for k in range(n):
    where = os.path.join(folder, f"site {k % 10}", f"year {k % 7}")
    os.makedirs(where, exist_ok=True)
    with zipfile.ZipFile(os.path.join(where, f"tower {k:04}.xlsx"), "w", zipfile.ZIP_DEFLATED, compresslevel=1) as out:
        for name, content in parts:
            if name == "xl/sharedStrings.xml":
                changed = content.replace(b"CT-2", b"CT-%04d" % k).replace(b"CT2", b"CT%04d" % k)
                if changed == content:
                    sys.exit("nothing to number in " + book)
                content = changed
            out.writestr(name, content)
