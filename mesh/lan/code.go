package lan

import (
	"crypto/rand"
	"fmt"
	"math/big"
	"strings"
	"unicode"

	"lintel/mesh"
)

// Digits of a pairing code: random ones, then a Damm check digit.
const (
	codeRandomDigits = 6
	codeDigits       = codeRandomDigits + 1
	codeBound        = 1_000_000 // codes of codeRandomDigits digits
)

// drawCode makes a new code, codeDigits digits.
func drawCode() (string, error) {
	n, err := rand.Int(rand.Reader, big.NewInt(codeBound))
	if err != nil {
		return "", fmt.Errorf("random: %w", err)
	}
	digits := fmt.Sprintf("%0*d", codeRandomDigits, n)
	check, _ := mesh.Damm(digits)
	return digits + string(check), nil
}

// ShowCode writes a code's digits as they are shown and read aloud, "123 456 7".
func ShowCode(digits string) string {
	if len(digits) != codeDigits {
		return digits
	}
	return digits[:3] + " " + digits[3:6] + " " + digits[6:]
}

// ReadCode brings a typed code to its bare digits. Spaces and hyphens are
// ignored; anything else, a wrong number of digits or a check digit that does
// not fit is ErrCodeTyped.
func ReadCode(typed string) (string, error) {
	digits := strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '-' {
			return -1
		}
		return r
	}, typed)
	if len(digits) != codeDigits || !mesh.DammFits(digits) {
		return "", ErrCodeTyped
	}
	return digits, nil
}
