package barcode

import (
	"encoding/json"
	"errors"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// yearOfTests is the reference year of tests that name no other.
const yearOfTests = 2026

// rowsOf reads the lines of a file below testdata, without comments.
func rowsOf(t testing.TB, name string) (rows []string) {
	t.Helper()
	b, err := os.ReadFile("testdata/" + name)
	require.NoError(t, err)
	for line := range strings.Lines(string(b)) {
		if line = strings.TrimSuffix(line, "\n"); line != "" && line[0] != '#' {
			rows = append(rows, line)
		}
	}
	require.NotEmpty(t, rows)
	return rows
}

// scanned turns a row's notation into what a scanner sends.
func scanned(text string) []byte { return []byte(strings.ReplaceAll(text, "{GS}", "\x1d")) }

// codeSaid is the code that goes with a sentence of the GS1 Barcode Syntax Engine.
func codeSaid(t *testing.T, sentence string) Code {
	t.Helper()
	for part, code := range map[string]Code{
		"check digit is incorrect":  CheckDigit,
		"illegal day":               BadDay,
		"illegal month":             BadMonth,
		"too long":                  ValueLong,
		"too short":                 ValueShort,
		"non-CSET 82":               BadCharacter,
		"illegal ^ character":       BadCharacter,
		"Required AIs":              Incomplete,
		"data is empty":             Empty,
		"It is invalid to pair AI ": Excluded,
	} {
		if strings.Contains(sentence, part) {
			return code
		}
	}
	t.Fatalf("no code for %q", sentence)
	return ""
}

// Goal: verdicts, elements and places of mistakes are those of the reference.
// Method: rows composed for this project, each with what the GS1 Barcode Syntax
// Engine (GS1, Apache License 2.0) read or said; a mistake that it marks as
// (17)2612|32| has to be found at the byte where the mark begins.
func TestScansReadAsTheReferenceReadsThem(t *testing.T) {
	rows := rowsOf(t, "gs1.txt")
	require.Len(t, rows, 31)
	for _, row := range rows {
		columns := strings.Split(row, " | ")
		scan, said := columns[1], strings.TrimSpace(strings.Join(columns[2:3], ""))
		got, err := Parse(scanned(scan), yearOfTests)
		if strings.TrimSpace(columns[0]) == "OK" {
			require.NoError(t, err, row)
			if said == "(no AI)" {
				require.Equal(t, Plain, got.Scheme)
				continue
			}
			require.Equal(t, said, got.String(), row)
			continue
		}
		var e *Error
		require.True(t, errors.As(err, &e), row)
		require.Equal(t, codeSaid(t, said), e.Code, row)
		if len(columns) < 4 || !strings.Contains(columns[3], "|") {
			continue
		}
		mark := strings.Index(columns[3], "|")
		element := columns[3][:mark]
		id, value, _ := strings.Cut(strings.TrimPrefix(element, "("), ")")
		require.Equal(t, id, e.ID, row)
		at := strings.Index(string(scanned(scan)), strings.Trim(id+value, " "))
		if strings.HasPrefix(scan, "(") {
			at = strings.Index(scan, element)
			require.Equal(t, at+len(element), e.Position, row)
			continue
		}
		require.Equal(t, at+len(id+value), e.Position, row)
	}
}

// Goal: years get their century, and day 00 its day, as the General
// Specifications say. Method: rows after GS1 General Specifications 7.12, with
// 30 February 2013 as their own example.
func TestDatesSlideWithTheReferenceYear(t *testing.T) {
	rows := rowsOf(t, "gs1_dates.tsv")
	require.Len(t, rows, 10)
	for _, row := range rows {
		columns := strings.Split(row, "\t")
		year, err := strconv.Atoi(columns[2])
		require.NoError(t, err)
		got, err := Parse([]byte("(01)09501101530003("+columns[0]+")"+columns[1]), year)
		if want, bad := strings.CutPrefix(columns[3], "ERR "); bad {
			var e *Error
			require.True(t, errors.As(err, &e), row)
			require.Equal(t, Code(want), e.Code, row)
			continue
		}
		require.NoError(t, err, row)
		require.Equal(t, columns[3], got.Elements[1].Date.String(), row)
		require.Equal(t, strings.Contains(columns[4], "DD=00") || columns[1] == "130200", got.Elements[1].Date.Inferred, row)
	}
}

// Goal: check digits are right for numbers of every length. Method: rows
// computed by the rule of GS1 General Specifications 7.9; every other last
// digit is refused.
func TestCheckDigitsCompleteTheirNumbers(t *testing.T) {
	var file struct {
		Cases []struct {
			Body  string
			Check int
			Full  string
		}
	}
	readJSON(t, "checkdigit.json", &file)
	require.Len(t, file.Cases, 7)
	for _, c := range file.Cases {
		require.Equal(t, byte('0'+c.Check), CheckDigitOf(c.Body), c.Body)
		for d := range 10 {
			full := c.Body + strconv.Itoa(d)
			require.Equal(t, full == c.Full, checked(full), full)
		}
	}
}

// Goal: check characters of HIBC are right, and the data they complete is read.
// Method: examples of ANSI/HIBC 2.6, appendices B and E, recomputed; every other
// last character is refused, and a space counts like any other.
func TestCheckCharactersCompleteTheirLabels(t *testing.T) {
	var file struct {
		Cases []struct{ Data, Check string }
	}
	readJSON(t, "hibc.json", &file)
	require.Len(t, file.Cases, 8)
	for _, c := range file.Cases {
		got, ok := CheckCharacterOf(c.Data)
		require.True(t, ok)
		require.Equal(t, c.Check, string(got), c.Data)
		for i := range len(hibcCharacters) {
			last := hibcCharacters[i : i+1]
			s, err := Parse([]byte(c.Data+last), yearOfTests)
			if last == c.Check {
				require.NoError(t, err, c.Data)
				require.Equal(t, HIBC, s.Scheme)
				require.Equal(t, c.Check, s.Check)
				continue
			}
			var e *Error
			require.True(t, errors.As(err, &e))
			require.Equal(t, Error{Code: CheckDigit, Position: len(c.Data)}, *e)
		}
	}
}

func readJSON(t testing.TB, name string, to any) {
	t.Helper()
	b, err := os.ReadFile("testdata/" + name)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(b, to))
}
