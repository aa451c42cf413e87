package main

import (
	"slices"
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
	for _, layout := range [][2]string{german(), french()} {
		for _, other := range []string{retyped(text, layout[1], layout[0]), retyped(text, layout[0], layout[1])} {
			if isLabel(other, year) || isLabel(swapped(other), year) {
				sentence, hint = w.Fault("label-layout")
				return sentence, hint, true
			}
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

// retyped is what the keys that typed a text on one layout type on another.
func retyped(text, on, other string) string {
	from, to := []rune(on), []rune(other)
	return strings.Map(func(r rune) rune {
		if i := slices.Index(from, r); i >= 0 {
			return to[i]
		}
		return r
	}, graves().Replace(text))
}

// graves undoes a German layout's accent, which swallows the plus before a letter.
func graves() *strings.Replacer {
	return strings.NewReplacer("À", "`A", "È", "`E", "Ì", "`I", "Ò", "`O", "Ù", "`U")
}

// german are the keys that differ, first on an American layout and then on a German.
func german() [2]string {
	return [2]string{"yzYZ-_=+[]{}\\|;:'\"/?<>@#^&*()`", "zyZYß?´`ü+Ü*#'öÖäÄ-_;:\"§&/()=^"}
}

// french are those of a French one.
func french() [2]string {
	return [2]string{"1234567890!@#$%^&*()qawzQAWZmM;:,<.>/?'\"-_[]{}\\|", "&é\"'(-è_çà1234567890aqzwAQZW,?mM;.:/!§ù%)°^$¨£*µ"}
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
