package device

import (
	"errors"

	"lintel/app/picture"
	"lintel/app/words"
)

// pictureFault words why bytes are not taken as a picture: row, column and cell
// fill the blanks.
func pictureFault(err error) (id words.ID, blanks []any, is bool) {
	var r *picture.Refused
	if !errors.As(err, &r) {
		return "", nil, false
	}
	return "picture-" + words.ID(r.Why), []any{r.Row, r.Column, r.Cell}, true
}
