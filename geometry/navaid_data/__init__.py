"""Tables of navaids as their publishers write them, to clean columns; a row that cannot be used says why.

reading.read does it. A form has a file with fits(cells), which looks at the headers, and columns(cells): the TEXTS and
NUMBERS of reading, but khz in place of freq, no limits, and the kind besides as it is written. Cells are
text, as a CSV reader gives them: NA is an ident and a country, never a missing value.
"""
