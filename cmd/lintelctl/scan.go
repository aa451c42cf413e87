package main

import (
	"context"
	"errors"
	"flag"
	"io"
	"os"
	"strings"
	"time"

	"lintel/app/optic"
	"lintel/app/words"
	"lintel/kits/barcode"
)

// usageScan is how barcode scans are read.
const usageScan = "lintelctl scan [-year YYYY] [-image FILE | -clipboard]"

// separatorTyped is how the separator is written where its byte cannot be typed.
const separatorTyped = "{GS}"

// scanCommand reads one scan per line, and answers each with one JSON object. A
// bad line is answered like any other.
func scanCommand(ctx context.Context, w words.Words, args []string, stdin io.Reader, stdout io.Writer) error {
	set := flag.NewFlagSet("scan", flag.ContinueOnError)
	year := set.Int("year", time.Now().Year(), "")
	file, clipboard := set.String("image", "", ""), set.Bool("clipboard", false, "")
	if err := readFlags(set, usageScan, args); err != nil {
		return err
	}
	if set.NArg() > 0 {
		return &fault{id: "flag", blanks: []any{set.Arg(0), usageScan}, usage: true}
	}
	if *year < barcode.YearMin || *year > barcode.YearMax {
		return &fault{id: "scan-year", usage: true}
	}
	out := &printer{out: stdout, w: w, json: true}
	if *file != "" || *clipboard {
		code, err := scanPicture(ctx, *file, *clipboard)
		if err != nil {
			return err
		}
		out.print(answerScan(w, inputLine{text: code.Text}, *year))
		return out.err
	}
	lines, stop := make(chan inputLine), make(chan struct{})
	defer close(stop)
	go readLines(stdin, lines, stop) // ends with stdin, or with the process: a read cannot be broken off
	for out.err == nil {
		select {
		case <-ctx.Done():
			return nil
		case line, more := <-lines:
			if !more {
				return nil
			}
			out.print(answerScan(w, line, *year))
		}
	}
	return out.err
}

// scanPicture reads the barcode in a file's picture, or in the clipboard's.
func scanPicture(ctx context.Context, path string, clipboard bool) (code optic.Code, err error) {
	if path != "" && clipboard {
		return code, &fault{id: "flag", blanks: []any{"-clipboard", usageScan}, usage: true}
	}
	if clipboard {
		code, err = optic.Clipboard(ctx)
		path = "-clipboard"
	} else {
		var f *os.File
		if f, err = os.Open(path); err != nil {
			return code, &fault{id: scanFile, blanks: []any{path}}
		}
		code, err = optic.Read(f)
		_ = f.Close() // it was only read
	}
	for why, id := range pictureFaults() {
		if errors.Is(err, why) {
			return code, &fault{id: id, blanks: []any{path}}
		}
	}
	if err != nil {
		return code, &fault{id: scanFile, blanks: []any{path}}
	}
	return code, nil
}

// scanFile is what is said where a picture's file cannot be read.
const scanFile words.ID = "scan-file"

// pictureFaults are what is said where a picture gives no scan.
func pictureFaults() map[error]words.ID {
	return map[error]words.ID{
		optic.ErrTooLarge: "scan-large", optic.ErrNoPicture: "scan-no-picture", optic.ErrNoCode: "scan-no-code",
		optic.ErrNoProgram: "scan-no-program", optic.ErrEmpty: "scan-clipboard",
	}
}

// scanEvent answers one line.
type scanEvent struct {
	Event     string        `json:"event"`          // scan
	Scan      string        `json:"scan,omitempty"` // as given
	Symbology string        `json:"symbology,omitempty"`
	Scheme    string        `json:"scheme,omitempty"`
	Elements  []scanElement `json:"elements,omitempty"`
	Item      string        `json:"item,omitempty"`
	GTIN14    string        `json:"gtin14,omitempty"`
	Lot       string        `json:"lot,omitempty"`
	Serial    string        `json:"serial,omitempty"`
	Expiry    string        `json:"expiry,omitempty"` // a date, with the time where the label has one
	Inferred  bool          `json:"inferred,omitempty"`
	Quantity  *int64        `json:"quantity,omitempty"`
	Link      string        `json:"link,omitempty"`
	Warnings  []scanWarning `json:"warnings,omitempty"`
	Error     string        `json:"error,omitempty"`
	Hint      string        `json:"hint,omitempty"`
	Code      string        `json:"code,omitempty"`
	Position  *int          `json:"position,omitempty"` // byte of the line, from 0
}

// scanElement is one element of a label.
type scanElement struct {
	AI       string `json:"ai"`
	Title    string `json:"title"`
	Meaning  string `json:"meaning"`
	Value    string `json:"value"`
	Position int    `json:"position"`
	Date     string `json:"date,omitempty"`
	Inferred bool   `json:"inferred,omitempty"`
	Amount   string `json:"amount,omitempty"`
}

// scanWarning is what is doubtful about a label.
type scanWarning struct {
	Warning  string `json:"warning"`
	Position int    `json:"position"`
	AI       string `json:"ai,omitempty"`
	Begins   string `json:"begins,omitempty"`
	Says     string `json:"says"`
}

// say is never asked for: scans are answered in JSON only.
func (e scanEvent) say(words.Words) string { return e.Error }

// readTyped turns the typed separator into its byte. at says where in the line
// each byte of the scan stands, and where the line ends.
func readTyped(line string) (scan []byte, at []int) {
	for i := 0; i < len(line); i++ {
		at = append(at, i)
		if strings.HasPrefix(line[i:], separatorTyped) {
			scan = append(scan, barcode.Separator)
			i += len(separatorTyped) - 1
			continue
		}
		scan = append(scan, line[i])
	}
	return scan, append(at, len(line))
}

// answerScan reads one line.
func answerScan(w words.Words, line inputLine, year int) scanEvent {
	scan, at := readTyped(line.text)
	s, err := barcode.Parse(scan, year)
	e := scanEvent{
		Event: "scan", Scan: line.text, Symbology: s.Symbology, Scheme: string(s.Scheme), Item: s.Item(), GTIN14: s.GTIN14,
		Lot: s.Lot, Serial: s.Serial, Expiry: s.Expiry.String(), Inferred: s.Expiry.Inferred, Link: s.Link,
	}
	if s.Counted {
		e.Quantity = &s.Quantity
	}
	for _, x := range s.Elements {
		one := scanElement{AI: x.ID, Title: x.Title, Meaning: w.ScanMeaning(x.ID), Value: x.Value, Position: at[x.Position], Date: x.Date.String(), Inferred: x.Date.Inferred, Amount: x.Amount}
		if one.Meaning == "" {
			one.Meaning = x.Title
		}
		e.Elements = append(e.Elements, one)
	}
	for _, d := range s.Warnings {
		says := w.Say(words.ScanDoubtID(string(d.Doubt)), named(w, d.ID), named(w, d.Other))
		e.Warnings = append(e.Warnings, scanWarning{Warning: string(d.Doubt), Position: at[d.Position], AI: d.ID, Begins: d.Other, Says: says})
	}
	var wrong *barcode.Error
	if errors.As(err, &wrong) {
		e.wrong(w, wrong, at)
	}
	return e
}

// wrong says what is wrong with a line.
func (e *scanEvent) wrong(w words.Words, err *barcode.Error, at []int) {
	var blanks []any
	if err.ID != "" {
		blanks = []any{named(w, err.ID), named(w, err.Other)}
	}
	if err.Code == barcode.Incomplete {
		blanks[1] = w.ScanNeeds(err.Other)
	}
	e.Error, e.Hint = w.Fault(words.ScanFaultID(string(err.Code)), blanks...)
	e.Code = string(err.Code)
	position := at[min(err.Position, len(at)-1)]
	e.Position = &position
}

// named is an identifier with what it stands for.
func named(w words.Words, id string) string {
	if meaning := w.ScanMeaning(id); meaning != "" {
		return id + " (" + meaning + ")"
	}
	return id
}
