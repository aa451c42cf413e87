package barcode

import "strings"

// CheckDigitOf gives the digit that completes a number of GS1: weights 3 and 1
// in turn from the right, up to the next ten (GS1 General Specifications 7.9).
// The body is digits without the check digit; anything else gives 0.
func CheckDigitOf(body string) byte {
	sum, weight := 0, 3
	for i := len(body) - 1; i >= 0; i-- {
		sum += int(body[i]-'0') * weight
		weight = 4 - weight
	}
	if !allDigits(body) {
		return '0'
	}
	return byte('0' + (10-sum%10)%10)
}

// checked tells whether the last digit is the check digit of those before it.
func checked(number string) bool {
	body, last := number[:len(number)-1], number[len(number)-1]
	return allDigits(number) && CheckDigitOf(body) == last
}

// Characters of HIBC in the order of their values (ANSI/HIBC 2.6, appendix B).
const hibcCharacters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%"

// CheckCharacterOf gives the character that completes data of HIBC: the sum of
// the characters' values modulo 43. It may be a space. ok is false where a
// character has no value.
func CheckCharacterOf(text string) (check byte, ok bool) {
	sum := 0
	for i := range len(text) {
		v := strings.IndexByte(hibcCharacters, text[i])
		if v < 0 {
			return 0, false
		}
		sum += v
	}
	return hibcCharacters[sum%len(hibcCharacters)], true
}

// Characters that a value may have.
const (
	digits      = "0123456789"
	capitals    = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	small       = "abcdefghijklmnopqrstuvwxyz"
	characters  = "!\"%&'()*+,-./" + digits + ":;<=>?" + capitals + "_" + small // set 82, in the order of its values
	characters3 = "#-/" + digits + capitals                                     // set 39
	characters6 = digits + capitals + small + "-_="                             // base 64 for files
	characters2 = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"                            // set 32, of the check character pair
)

// modelPairModulus is the modulus of the check character pair.
const modelPairModulus = 1021

// checkedPair tells whether the last two characters are the pair that completes
// those before: their values in set 82, weighted by primes counted from the
// right, modulo 1021, written in set 32 (GS1 General Specifications 7.9.5).
func checkedPair(value string) bool {
	if len(value) < 2 {
		return false
	}
	body, sum := value[:len(value)-2], 0
	weight := 1
	for i := len(body) - 1; i >= 0; i-- {
		v := strings.IndexByte(characters, body[i])
		if v < 0 {
			return false
		}
		weight = nextPrime(weight)
		sum += v * weight
	}
	sum %= modelPairModulus
	return value[len(value)-2] == characters2[sum>>5] && value[len(value)-1] == characters2[sum&31]
}

func nextPrime(n int) int {
	for {
		n++
		prime := true
		for d := 2; d*d <= n; d++ {
			if n%d == 0 {
				prime = false
				break
			}
		}
		if prime {
			return n
		}
	}
}

func isDigit(b byte) bool { return '0' <= b && b <= '9' }

// allDigits tells whether a text has nothing but digits, and at least one.
func allDigits(text string) bool {
	for i := range len(text) {
		if !isDigit(text[i]) {
			return false
		}
	}
	return text != ""
}

// number reads a few digits; the caller knows that they are digits.
func number(text string) (n int) {
	for i := range len(text) {
		n = n*10 + int(text[i]-'0')
	}
	return n
}
