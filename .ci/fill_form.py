"""Fills a blank form by its defined names: fill_form.py BLANK OUT [VALUES.json]

A value goes into the first cell of its name, a list down its first column, and
a list of lists row by row. {"date": "2026-03-04"} and {"time": "8:40"} become
dates and times of the spreadsheet; null leaves a cell as it is.
"""
import datetime
import json
import pathlib
import sys

import openpyxl


def cell_value(v):
    if not isinstance(v, dict):
        return v
    if "date" in v:
        return datetime.date.fromisoformat(v["date"])
    hour, minute = v["time"].split(":")
    return datetime.time(int(hour), int(minute))


def rows(values):
    if not isinstance(values, list):
        return [[values]]
    return [r if isinstance(r, list) else [r] for r in values]


def fill(book, name, values):
    places = list(book.defined_names[name].destinations)
    if len(places) != 1:
        sys.exit(f"{name} has {len(places)} places")
    title, cells = places[0]
    area = book[title][cells]
    if not isinstance(area, tuple):
        area = ((area,),)
    values = rows(values)
    if len(values) > len(area) or max(map(len, values)) > len(area[0]):
        sys.exit(f"{name} has no room for so many values")
    for line, row in zip(area, values):
        for cell, v in zip(line, row):
            if v is not None:
                date_format = cell.number_format
                cell.value = cell_value(v)
                cell.number_format = date_format  # a script keeps the form's formats


def main():
    blank, out, *rest = sys.argv[1:]
    values = rest[0] if rest else pathlib.Path(__file__).with_name("form_values.json")
    book = openpyxl.load_workbook(blank)
    for name, value in json.loads(pathlib.Path(values).read_text(encoding="utf-8")).items():
        fill(book, name, value)
    book.save(out)


main()
