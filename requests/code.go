package requests

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"

	"lintel/mesh"
)

// codeDigits is how many digits of a joining code come before its check digit.
const codeDigits = 4

// Code is a request's short joining code, to be said or shown through glass:
// four digits and a Damm check digit. It follows from the request's name, so
// every device shows the same; now and then two requests share one, and then
// people must name the request otherwise.
func Code(asked mesh.Ref) string {
	sum := sha256.Sum256(append([]byte("lintel code 1"), asked[:]...))
	body := fmt.Sprintf("%0*d", codeDigits, binary.BigEndian.Uint64(sum[:8])%10_000)
	check, _ := mesh.Damm(body) // it is digits only
	return body + string(check)
}

// ByCode lists the requests with a joining code, in order.
func (b *Board) ByCode(code string) (out []Request) {
	for _, r := range b.Requests() {
		if Code(r.Ref) == code {
			out = append(out, r)
		}
	}
	return out
}
