"""Edits a form in a spreadsheet as people do: soffice_edit.py IN.xlsx OUT.xlsx

Inserts rows inside and over blocks and a column, renames and moves a sheet,
adds one, and saves. Runs with the Python that has the spreadsheet's uno module.
"""
import pathlib
import shutil
import subprocess
import sys
import tempfile
import time

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

PATIENCE = 90  # seconds for the program to start


def option(name, value):
    p = PropertyValue()
    p.Name, p.Value = name, value
    return p


def connect(pipe):
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
    end = time.monotonic() + PATIENCE
    while True:
        try:
            return resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
        except NoConnectException:
            if time.monotonic() > end:
                raise
            time.sleep(0.3)


def edit(book):
    """Changes the workbook; every range is found by its name."""
    names = book.NamedRanges

    def place(name):
        return names.getByName(name).getReferredCells().RangeAddress

    sheets = book.Sheets
    for title in sheets.ElementNames:
        sheet = sheets.getByName(title)
        if sheet.isProtected():
            sheet.unprotect("")
    cell = sheets.getByIndex(place("c01_clearance_asleft").Sheet)
    for name, inside in (("c01_clearance_asleft", 3), ("c01_clearance_asleft", 0), ("c01_tilt_asfound", 5),
                         ("c01_asfound_head", 2), ("c01_moves", 1), ("c01_name", 0)):
        cell.Rows.insertByIndex(place(name).StartRow + inside, 2)
    cell.Columns.insertByIndex(place("c01_tilt_asfound").StartColumn, 1)
    project = sheets.getByIndex(place("project_plant").Sheet)
    project.Rows.insertByIndex(place("tower_tag").StartRow, 1)
    limits = sheets.getByIndex(place("limits").Sheet)
    limits.Rows.insertByIndex(place("limits").StartRow + 2, 1)
    cell.Name = "Kühlturm 1 (renamed)"
    sheets.moveByName("Limits", len(sheets.ElementNames))
    sheets.insertNewByName("Scratch", 2)


def main():
    source, out = (pathlib.Path(a).resolve() for a in sys.argv[1:3])
    home = tempfile.mkdtemp()
    pipe = "form" + pathlib.Path(home).name
    program = subprocess.Popen([
        "soffice", "--headless", "--norestore", "--nologo", f"-env:UserInstallation=file://{home}",
        f"--accept=pipe,name={pipe};urp;"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        context = connect(pipe)
        desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
        book = desktop.loadComponentFromURL(source.as_uri(), "_blank", 0, (option("Hidden", True),))
        if book is None:
            sys.exit(f"{source} does not open")
        edit(book)
        book.storeToURL(out.as_uri(), (option("FilterName", "Calc MS Excel 2007 XML"),))
        book.close(True)
        desktop.terminate()
        program.wait(30)
    finally:
        if program.poll() is None:
            program.kill()
        shutil.rmtree(home, ignore_errors=True)


main()
