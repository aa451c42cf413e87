package main

import (
	"bufio"
	"errors"
	"io"
	"strconv"
	"strings"
	"time"
	"unicode"

	"lintel/mesh"
)

// lineLenMax bounds one line of input, in bytes.
const lineLenMax = 8 << 10

// inputLine is one line of standard input, or that it was too long.
type inputLine struct {
	text string
	long bool
}

// readLines sends the lines of in until it ends. What is too long is skipped
// up to its end. It ends with in, or when nobody takes lines any more.
func readLines(in io.Reader, out chan<- inputLine, stop <-chan struct{}) {
	defer close(out)
	r := bufio.NewReaderSize(in, lineLenMax)
	for {
		b, err := r.ReadSlice('\n')
		l := inputLine{text: strings.TrimRight(string(b), "\r\n")}
		for errors.Is(err, bufio.ErrBufferFull) {
			l.long = true
			_, err = r.ReadSlice('\n')
		}
		if err == nil || l.text != "" {
			select {
			case out <- l:
			case <-stop:
				return
			}
		}
		if err != nil {
			return
		}
	}
}

// word is one word of a line. What stood in quotation marks is never a keyword.
type word struct {
	text   string
	quoted bool
}

// split cuts a line into words.
func split(line string) (out []word, err error) {
	var b strings.Builder
	inside, started, quoted := false, false, false
	end := func() {
		if started {
			out = append(out, word{b.String(), quoted})
		}
		b.Reset()
		started, quoted = false, false
	}
	for _, r := range line {
		switch {
		case r == '"':
			inside, started, quoted = !inside, true, true
		case unicode.IsSpace(r) && !inside:
			end()
		default:
			b.WriteRune(r)
			started = true
		}
	}
	if inside {
		return nil, &fault{id: "quote"}
	}
	end()
	return out, nil
}

// arguments are the words of a command that were not read yet.
type arguments struct {
	words    []word
	happened mesh.Wall // stated with "at"; 0: now
	way      mesh.Way  // how the person knows
	usage    string
}

// readHappened takes "at TIME" from the end of a line. A time of day that is
// still to come within the hour is refused: it would be a day too early.
func (a *arguments) readHappened(now time.Time) error {
	n := len(a.words)
	if n < 2 || a.words[n-2].quoted || a.words[n-2].text != "at" {
		return nil
	}
	at, ok := readTime(a.words[n-1].text, now)
	if !ok {
		return &fault{id: "time", blanks: []any{a.words[n-1].text}}
	}
	if now.Sub(at) > 24*time.Hour-toComeMax && a.words[n-1].text[0] != '-' {
		return &fault{id: "time-to-come", blanks: []any{a.words[n-1].text}}
	}
	a.words, a.happened = a.words[:n-2], mesh.Wall(at.UnixMilli())
	return nil
}

// toComeMax is how far a time of day may lie ahead and still be a slip, or a clock
// that is fast, and not the evening before.
const toComeMax = time.Hour

// readTime reads -2m, 14:05 or 14:05:30. A time of day that is still to come
// is yesterday's.
func readTime(text string, now time.Time) (time.Time, bool) {
	if d, err := time.ParseDuration(text); err == nil && d <= 0 {
		return now.Add(d), true
	}
	for _, layout := range []string{time.TimeOnly, "15:04"} {
		if t, err := time.Parse(layout, text); err == nil {
			at := time.Date(now.Year(), now.Month(), now.Day(), t.Hour(), t.Minute(), t.Second(), 0, now.Location())
			if at.After(now) {
				at = at.AddDate(0, 0, -1)
			}
			return at, true
		}
	}
	return time.Time{}, false
}

// bad says that the command was not understood.
func (a *arguments) bad() error {
	name, _, _ := strings.Cut(a.usage, " ")
	return &fault{id: "usage", blanks: []any{name, a.usage}}
}

// next takes one word.
func (a *arguments) next() (string, bool) {
	if len(a.words) == 0 {
		return "", false
	}
	first := a.words[0].text
	a.words = a.words[1:]
	return first, true
}

// keyword takes the next word if it is one of the given ones.
func (a *arguments) keyword(which ...string) (string, bool) {
	for _, k := range which {
		if len(a.words) > 0 && !a.words[0].quoted && a.words[0].text == k {
			a.words = a.words[1:]
			return k, true
		}
	}
	return "", false
}

// after takes the word behind a keyword: room A1. ok tells whether the keyword is there.
func (a *arguments) after(keyword string) (value string, ok bool, err error) {
	if _, ok = a.keyword(keyword); !ok {
		return "", false, nil
	}
	value, more := a.next()
	if !more {
		return "", false, a.bad()
	}
	return value, true, nil
}

// count takes a quantity, x3.
func (a *arguments) count() (n int64, ok bool, err error) {
	if len(a.words) == 0 || a.words[0].quoted || !isQuantity(a.words[0].text) {
		return 0, false, nil
	}
	text, _ := a.next()
	n, err = strconv.ParseInt(text[1:], 10, 64)
	if err != nil || n < 1 {
		return 0, false, &fault{id: "count", blanks: []any{text}}
	}
	return n, true, nil
}

func isQuantity(s string) bool {
	return len(s) > 1 && (s[0] == 'x' || s[0] == 'X') && strings.Trim(s[1:], "-+0123456789.") == ""
}

// rest takes everything that is left, as one text.
func (a *arguments) rest() string {
	texts := make([]string, len(a.words))
	for i, w := range a.words {
		texts[i] = w.text
	}
	a.words = nil
	return strings.Join(texts, " ")
}

// done complains about words that nobody took.
func (a *arguments) done() error {
	if len(a.words) > 0 {
		return a.bad()
	}
	return nil
}
