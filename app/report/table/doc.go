// Package table carries a unit's catalogue, bundles, templates of kits, places
// and par levels into files and back: as CSV (RFC 4180, UTF-8, CRLF), one list
// in a file, or as a spreadsheet (XLSX), one sheet for each list. It writes
// nothing into the log: reading gives a Plan, and whoever has a device at work
// carries it out, one station.Catalogue after another.
//
// # Lists
//
// A list has the columns of the starter lists, in any order, and may have the
// others. A row is one line, of bundles and templates one line of what they
// hold; rows of one bundle follow each other and repeat what is said of it.
//
//	catalogue  number name group detail measure content volume_ul use controlled must_be_seen high_alert
//	           look_alike label_class waste exit exit_days kept_at kept_words alternatives source
//	           · tall_man codes cost_minor currency mass_mg gone
//	bundles    number name rescue lies_at lies_words item count where source · gone
//	templates  id name item count where source · gone
//	places     place name shelf · gone; source is passed over
//	pars       place item par · gone; opening and source are passed over
//
// A column that a file does not have leaves what stands; an empty cell empties
// it. A line that a file does not have stays: only gone, yes, takes one out of
// use. Pictures and plans are in no column and stay too.
//
// Numbers are whole: microlitres, milligrams, hundredths of a currency, and
// amounts as "50000 microgram". Codes are text, their zeros stay. Several codes
// stand with | between and no blanks; a | or \ within one has a \ before it.
//
// # Reading
//
// Open takes a file apart, Against holds it against a ledger; Read is both. It
// lists every problem by list, row and column, rows counted as a
// spreadsheet does. A file with a problem changes nothing. Where the same lines
// come out as stand already, there is no change and nothing is written.
//
// In CSV a cell that begins with = is a formula and refused. One apostrophe
// before = + - @ (after any others) is taken away: written for spreadsheets, a
// text that such a program would take for a formula gets one. A byte order mark
// is tolerated and said. In a spreadsheet formulas are refused, and codes that
// are stored as numbers.
//
// # Limits
//
// FileLenMax, RowsMax and ColumnsMax bound a file; PartsMax and UnpackedLenMax
// what a spreadsheet says, and is found, to unpack to, before the library that
// reads it sees a byte.
package table
