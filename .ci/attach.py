"""Makes a tower with photos and papers beside its workbook: attach.py BOOK FOLDER.

A PNG with a transparent part, and a PDF, both written by hand; the workbook is a
copy of BOOK that names them.
"""

import pathlib
import struct
import sys
import zlib

import openpyxl


def png(width, height):
    rows = b"".join(
        b"\0" + b"".join(bytes((x * 255 // width, y * 255 // height, 90, 255 if x > y else 80)) for x in range(width))
        for y in range(height)
    )

    def chunk(kind, body):
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    head = struct.pack(">IIBBBBB", width, height, 8, 6, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


def pdf():
    objects = [
        "<</Type/Catalog/Pages 2 0 R>>",
        "<</Type/Pages/Kids[3 0 R]/Count 1>>",
        "<</Type/Page/Parent 2 0 R/MediaBox[0 0 612 792]>>",
    ]
    text, at = "%PDF-1.4\n", []
    for number, body in enumerate(objects, 1):
        at.append(len(text))
        text += f"{number} 0 obj\n{body}\nendobj\n"
    start = len(text)
    text += f"xref\n0 {len(objects) + 1}\n0000000000 65535 f \n" + "".join(f"{a:010d} 00000 n \n" for a in at)
    return (text + f"trailer\n<</Size {len(objects) + 1}/Root 1 0 R>>\nstartxref\n{start}\n%%EOF\n").encode()


book, folder = sys.argv[1], pathlib.Path(sys.argv[2])
(folder / "photos").mkdir(parents=True)
(folder / "photos" / "hub.png").write_bytes(png(1500, 1000))
(folder / "photos" / "plate.png").write_bytes(png(300, 400))
(folder / "rule.pdf").write_bytes(pdf())
workbook = openpyxl.load_workbook(book)
sheet, cells = next(workbook.defined_names["attachments"].destinations)
rows = [
    ("photo", 1, "photos/hub.png", "Hub and clamps after the last torque pass"),
    ("photo", 1, "photos\\plate.png", "Nameplate of the gear reducer"),
    ("photo", None, "photos/plate.png", "Nameplate of the tower"),
    ("certificate", None, "rule.pdf", "Calibration of the rule"),
]
for line, row in zip(workbook[sheet][cells.replace("$", "")], rows):
    for cell, value in zip(line, row):
        cell.value = value
workbook.save(folder / "tower.xlsx")
