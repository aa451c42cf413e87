package main

import (
	"strings"
	"unicode"

	"lintel/app/words"
	"lintel/kits/barcode"
)

// misread says why a scanner's text is no label though another keyboard would have
// made it one, and what to do; false: it is a label, or nobody can tell. Nothing is
// corrected in silence: the scan has to be made again.
func misread(w words.Words, text string, year int) (sentence, hint string, is bool) {
	if isLabel(text, year) {
		return "", "", false
	}
	if isLabel(swapped(text), year) {
		sentence, hint = w.Fault("label-caps")
		return sentence, hint, true
	}
	for _, keys := range []*strings.Replacer{german(), french()} {
		if other := keys.Replace(text); isLabel(other, year) || isLabel(swapped(other), year) {
			sentence, hint = w.Fault("label-layout")
			return sentence, hint, true
		}
	}
	return "", "", false
}

// isLabel tells whether a text names an item, with all its checks.
func isLabel(text string, year int) bool {
	s, err := barcode.Parse([]byte(text), year)
	return err == nil && s.Item() != ""
}

// swapped is a text as caps lock makes it.
func swapped(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsUpper(r) {
			return unicode.ToLower(r)
		}
		return unicode.ToUpper(r)
	}, text)
}

// german undoes a German layout under a scanner that sends an American one.
func german() *strings.Replacer {
	return strings.NewReplacer("+", "]", "ü", "[", "*", "}", "y", "z", "z", "y", "Y", "Z", "Z", "Y", "ß", "-", "-", "/", "_", "?", "&", "^", "/", "&", "(", "*", ")", "(", "=", ")", "`", "+", "´", "=")
}

// french undoes a French one.
func french() *strings.Replacer {
	return strings.NewReplacer("&", "1", "é", "2", "\"", "3", "'", "4", "(", "5", "-", "6", "è", "7", "_", "8", "ç", "9", "à", "0", ")", "-", "$", "]",
		"q", "a", "a", "q", "w", "z", "z", "w", "Q", "A", "A", "Q", "W", "Z", "Z", "W")
}

// unused says that a page takes no label, and what the label says.
func unused(w words.Words, text string, year int) (sentence, hint string) {
	s, err := barcode.Parse([]byte(text), year)
	var says []string
	for _, part := range []struct {
		id   words.ID
		text string
	}{{"window.label-item", s.Item()}, {"window.label-lot", s.Lot}, {"window.label-expiry", s.Expiry.String()}} {
		if part.text != "" {
			says = append(says, w.Say(part.id, part.text))
		}
	}
	if err != nil || len(says) == 0 {
		return w.Fault("label-unused")
	}
	return w.Fault("label-idle", strings.Join(says, ", "))
}
