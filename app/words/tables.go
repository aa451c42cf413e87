package words

// englishTables is what is said of lists in files: what is wrong with them,
// where, and what was done with them.
func englishTables() map[ID]string {
	return map[ID]string{
		"table.at-list": "{1}: {2}",
		"table.at-row":  "{1}, row {2}: {3}",
		"table.at-cell": "{1}, row {2}, column {3} ({4}): {5}",

		"table.empty-file":      "The file is empty.",
		"table.file-long":       "The file is too long: at most {1} MiB are read.",
		"table.utf16":           "The file is not in UTF-8, but looks like UTF-16. Save it as CSV in UTF-8.",
		"table.old-spreadsheet": "The file is an old spreadsheet or has a password. Save it as XLSX without one.",
		"table.cut-off":         "The spreadsheet is cut off: its directory is missing. Copy it again.",
		"table.no-spreadsheet":  "The file begins like a spreadsheet and cannot be read as one.",
		"table.unpacked":        "The spreadsheet says that it unpacks to more than {1} MiB, or to more than {2} parts. It was not unpacked.",
		"table.part-twice":      "The spreadsheet holds its part {1} twice.",
		"table.part":            "The part {1} of the spreadsheet cannot be unpacked or read, or is not as long as it says.",
		"table.sheet-unknown":   "There is no list for the sheet {1}, or it is there twice. The lists are: {2}.",
		"table.which-list":      "The heading belongs to none of the lists: {1}. Call the file like its list, or give it the columns of one.",
		"table.commas":          "The columns are divided by something else than commas. Save it as CSV with commas.",
		"table.no-heading":      "There is no heading that can be read.",
		"table.quotes":          "A quotation mark is missing or stands where none can, or the file is cut off. What follows was not read.",

		"table.rows":           "There are more than {1} rows. What follows was not read.",
		"table.beyond":         "A cell lies beyond row {1} or column {2}. The sheet was not read.",
		"table.columns":        "There are more than {1} columns. The list was not read.",
		"table.cells":          "The row has {1} cells, the heading {2}.",
		"table.column-twice":   "The column is there twice, first at {1}.",
		"table.column-unknown": "The list has no such column. It has: {1}.",
		"table.column-missing": "No column is headed {1}.",

		"table.not-utf8":   "The text is not in UTF-8.",
		"table.hidden":     "The text holds a character that is not shown, such as a line break.",
		"table.formula":    "This is a formula. Put in what it gives; text that begins with = needs an apostrophe before it.",
		"table.empty":      "The cell is empty.",
		"table.long":       "The text is longer than {1} bytes.",
		"table.id":         "{1} is no id: at most {2} of the letters a to z, digits and - . _",
		"table.whole":      "{1} is not a whole number from 0 to {2}.",
		"table.number":     "{1} is not a spoken number: three to six digits, of which the last one must fit.",
		"table.yes-no":     "{1} is neither yes nor no.",
		"table.place":      "{1} is not a place such as trolley/airway.",
		"table.amount":     "{1} is not an amount such as 50000 microgram.",
		"table.measure":    "{1} is none of each, microgram, microlitre, unit, micromole.",
		"table.use":        "{1} is none of single, reprocessed, none.",
		"table.exit":       "{1} is none of discard, decontaminate, quarantine, return-untaken.",
		"table.where":      "{1} is none of inside, door, outside.",
		"table.currency":   "{1} is not a currency of three letters.",
		"table.capitals":   "{1} is all capitals, which are read more slowly and mistaken more easily.",
		"table.code-digit": "The last digit of the code {1} does not fit.",
		"table.code-number": "The code is stored as a number, which loses zeros and long ends. " +
			"Format the cell as text and put the code in again.",
		"table.code-twice": "The code {1} belongs to item {2} already.",

		"table.twice":        "It is there already, in row {1}.",
		"table.apart":        "The rows of one thing must follow each other; it began in row {1}.",
		"table.two-ways":     "The rows of one thing must say the same here as row {1}.",
		"table.no-item":      "There is no item {1}, neither in the file nor in the unit.",
		"table.no-bundle":    "The catalogue has something else than a bundle under {1}.",
		"table.itself":       "An item is no alternative to itself.",
		"table.no-waste":     "There is no class of waste {1}.",
		"table.no-currency":  "There is a cost without its currency.",
		"table.drug":         "A drug has a strength in detail and a content.",
		"table.lies-nowhere": "A rescue set needs words that say where it lies.",
		"table.unfit":        "The line cannot be written: a text is too long or a number out of range.",
		"table.line-long":    "The line takes {1} bytes, and at most {2} can be written.",

		"table.mark":        "The file begins with a byte order mark, which was passed over.",
		"table.passed-over": "{1}: passed over, because the list does not hold it: {2}.",
		"table.new":         "{1}, row {2}: {3} {4} is new",
		"table.changed":     "{1}, row {2}: {3} {4} changes: {5}",
	}
}

// englishTableCommands is what the commands for files say.
func englishTableCommands() map[ID]string {
	return map[ID]string{
		"help.export":     "write catalogue, bundles, templates of kits, places and par levels into a file: XLSX, or one list as CSV",
		"help.import":     "see what a file would change: every problem, else every change; without \"apply\" nothing is written",
		"help.export-dir": "the lists of the unit in DIR as a file: all as XLSX, or one as CSV; never writes into DIR",
		"help.import-dir": "what a file would change in the unit of DIR: every problem, else every change; never writes",

		"tables.trial.one":     "1 line would change; nothing was written",
		"tables.trial.many":    "{1} lines would change; nothing was written",
		"tables.same":          "nothing would change",
		"tables.applied.one":   "1 line was written",
		"tables.applied.many":  "{1} lines were written",
		"tables.problems.one":  "1 problem",
		"tables.problems.many": "{1} problems",

		"fault.table-problems": "The file has {1}, and nothing was written.",
		"hint.table-problems":  "Each was listed with its place; put them right and try again.",
		"fault.table-file":     "The file {1} cannot be read.",
		"hint.table-file":      "Check that it is there and can be read.",
		"fault.table-kind":     "It is not clear what to write into {1}.",
		"hint.table-kind":      "Give a file that ends in .xlsx, or in .csv together with a list, or called like one: {2}.",
		"fault.table-out":      "The file {1} cannot be written.",
		"hint.table-out":       "Give a file in a folder that can be written.",
		"fault.table-half":     "Only {1} of {2} lines were written.",
		"hint.table-half":      "Give the same command again: it writes what is missing.",
	}
}
