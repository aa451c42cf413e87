package mesh

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTextIsStoredInOneForm tries what may and what may not be stored.
func TestTextIsStoredInOneForm(t *testing.T) {
	accepted := []string{"", "7.5", "10 mg/mL", "Ärztin · 3 µg", "é", "尿", "👍", strings.Repeat("a", LabelLenMax)}
	for _, s := range accepted {
		require.NoError(t, Label(s).Valid(), "%q", s)
	}
	refused := map[string]string{
		"a newline":         "a\nb",
		"a tab":             "a\tb",
		"a zero":            "a\x00b",
		"delete":            "a\x7fb",
		"a C1 control":      "a\u0085b",
		"not UTF-8":         "a\xffb",
		"half a surrogate":  "a\xed\xa0\x80b",
		"an overlong slash": "a\xc0\xafb",
		"not NFC":           "e\u0301",
		"Ångström sign":     "\u212b",
		"one byte too many": strings.Repeat("a", LabelLenMax+1),
	}
	for name, s := range refused {
		require.ErrorIs(t, Label(s).Valid(), ErrText, name)
	}
}

// TestTextLengthsAreBytes fills each type to its bound in two-byte letters.
func TestTextLengthsAreBytes(t *testing.T) {
	const letter = "é"
	fill := func(bytes int) string { return strings.Repeat(letter, bytes/len(letter)) }
	require.NoError(t, Tag(fill(TagLenMax)).Valid())
	require.ErrorIs(t, Tag(fill(TagLenMax)+letter).Valid(), ErrText)
	require.NoError(t, Label(fill(LabelLenMax)).Valid())
	require.ErrorIs(t, Label(fill(LabelLenMax)+letter).Valid(), ErrText)
	require.NoError(t, Text(fill(TextLenMax)).Valid())
	require.ErrorIs(t, Text(fill(TextLenMax)+letter).Valid(), ErrText)
}

// TestIDsAreForPrograms tries the letters that a program's name may have.
func TestIDsAreForPrograms(t *testing.T) {
	for _, s := range []ID{"", "runner", "A1", "kit-3.b_2", ID(strings.Repeat("x", IDLenMax))} {
		require.NoError(t, s.Valid(), "%q", s)
	}
	for _, s := range []ID{"a b", "a/b", "ä", "a\n", "a\xff", ID(strings.Repeat("x", IDLenMax+1))} {
		require.ErrorIs(t, s.Valid(), ErrText, "%q", s)
	}
}

// textSeeds are what people and their keyboards may give.
func textSeeds() []string {
	return []string{"", "tube 7.5", "e\u0301", "\u212b", "a\r\nb", "\xff\xfe", "\u1112\u1161\u11ab", "a\u0301\u0323", "\u0344"}
}

// cleanedTextCanBeStored is what must be true of anything typed.
func cleanedTextCanBeStored(t testing.TB, typed string) {
	clean := CleanText(typed)
	require.NoError(t, validText(clean, len(clean)))
	require.Equal(t, clean, CleanText(clean), "cleaning twice changes nothing")
}

// TestCleanTextCanBeStored runs the fuzz target's property over its seeds.
func TestCleanTextCanBeStored(t *testing.T) {
	for _, s := range textSeeds() {
		cleanedTextCanBeStored(t, s)
	}
	require.Equal(t, "a  b é", CleanText("a\r\nb e\u0301"))
}

// FuzzCleanText looks for typed text that cannot be stored after cleaning.
func FuzzCleanText(f *testing.F) {
	for _, s := range textSeeds() {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, typed string) { cleanedTextCanBeStored(t, typed) })
}

// Goal: no stored text can look like another or break a line. Method: each
// sort of character that is not itself shown is refused, and cleaned away.
func TestCharactersThatMisleadAreRefused(t *testing.T) {
	for _, r := range []rune{0, '\n', 0x7f, 0x85, 0x2028, 0x2029, 0x202a, 0x202e, 0x2066, 0x2069, 0xfeff, 0xfff9} {
		bad := "a" + string(r) + "b"
		require.ErrorIs(t, Label(bad).Valid(), ErrText, "%U", r)
		require.Equal(t, "a b", CleanText(bad), "%U", r)
	}
	for _, good := range []string{"10 mg/mL", "µ", "naïve", "שלום", "مرحبا", "可", "👍"} {
		require.NoError(t, Label(good).Valid(), good)
	}
}
