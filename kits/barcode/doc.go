// Package barcode reads what a scanner read off a label: which item, which lot
// and serial number, what expires when. It follows published rules and has been
// certified against none.
//
// # What is read
//
//	GS1            element strings of the GS1 General Specifications, as GS1-128, DataBar,
//	               GS1 DataMatrix, GS1 QR and GS1 DotCode carry them, and as printed: (01)…(17)…
//	Digital Link   http and https addresses of any host with a primary key in their path
//	HIBC           primary, secondary and joined data of ANSI/HIBC 2.6
//	Plain          the digits of EAN, UPC and ITF-14 symbols
//
// A scan may begin with the symbology identifier of ISO/IEC 15424 (]C1 ]e0 ]d2 ]Q3 ]J1 and
// others; capitals and small letters differ); a keyboard scanner often leaves it out, and then
// the data itself says what it is. The separator is byte 0x1D, [Separator].
//
// # An element string
//
//	]d2 01 09501101530003 17 261231 10 LOT42A <1D> 21 SN0001
//	    └┬┘└─────┬──────┘
//	     │       value: of a length known beforehand, or up to the next separator
//	     identifier: two to four digits, none the beginning of another
//
// identifiers.txt holds what may follow each identifier: digits and characters, lengths, check
// digits, dates, which others it needs beside it and which it excludes. Rules of the reference
// that say nothing about an item are not applied: lists of countries, currencies, package and
// media types, IBANs, coupons, coordinates and percent signs in addresses.
//
// Digits alone, 8, 12, 13 or 14 of them, are an item's number and no element string.
//
// # HIBC
//
//	the scan    +A99912345/$$52001510X3/16D20111212/S77DEFG457
//	+           what every scan of HIBC begins with
//	A999        labeler
//	1234        product, 1 to 18 characters
//	5           level of packaging
//	/           between what is joined
//	$$          lot follows ($$+: serial number), after quantity and date
//	5 20015     form of the date, and the date
//	10X3        lot
//	16D …       made on (14D: expires on)
//	S …         serial number (Q: quantity)
//	7           check character, perhaps a space
//
// Secondary data in a symbol of its own begins with + and ends with two characters: the link,
// which is the primary's check character, and its own check character.
//
// # What is promised
//
//   - Nothing is trimmed, turned into capitals or corrected. AsScanned is the scan as it came.
//   - Bounds come before everything: [ScanLenMax] bytes, [ElementsMax] elements.
//   - An error says where: the byte of the scan, counted from 0, prefix included.
//   - What is valid and yet doubtful is a warning: above all a separator that seems to have
//     been lost, for a lot that swallowed what followed it is valid syntax.
//   - A year has two digits: it lies at most 49 years before and 50 years after the year that
//     the caller gives; no clock is read. Where a label leaves out the day, the month's last day
//     is meant, and Inferred says so.
//   - [Scan.ElementString] and [Scan.String] give one form for one content; reading either
//     again gives the same elements.
//
// A label may spread over several symbols (the number in one, lot and expiry in another):
// [ParseLabel] reads them together. What one symbol lacks is the error [Incomplete], with
// everything that was read beside it.
package barcode
