package mesh

// dammTable is the totally anti-symmetric quasigroup of order 10 of
// H. M. Damm, "Total anti-symmetrische Quasigruppen", Marburg 2004: row is the
// digit carried so far, column the next digit.
const dammTable = "0317598642" +
	"7092154863" +
	"4206871359" +
	"1750983426" +
	"6123045978" +
	"3674209581" +
	"5869720134" +
	"8945362017" +
	"9438617205" +
	"2581436790"

// Damm returns the check digit ('0' to '9') to write behind digits. Spoken
// numbers and pairing codes carry one: no single wrong digit and no swap of two
// neighbours, the check digit included, goes unnoticed. Zeros in front change
// nothing. ok is false for an empty text or anything but the digits 0 to 9.
func Damm(digits string) (check byte, ok bool) {
	carried := byte('0')
	for i := range len(digits) {
		d := digits[i]
		if d < '0' || d > '9' {
			return 0, false
		}
		carried = dammTable[int(carried-'0')*10+int(d-'0')]
	}
	return carried, len(digits) > 0
}

// DammFits tells whether the last of digits is the check digit of those before
// it. It is false for fewer than two digits and for anything but digits.
func DammFits(digits string) bool {
	check, ok := Damm(digits)
	return ok && len(digits) > 1 && check == '0'
}
